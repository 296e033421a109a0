package in

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"laybill/estimate/problem"
)

// planted is one workbook with faults in nearly every table at once. A cell
// that is followed by ^CODE is where that problem must be named; nothing else
// may be. Tables stand on several sheets so that the rows stay short.
const planted = `-- Job --
Setting,Value
Job name,Harbour Row
Currency,EUR
Length unit,m
Off-cut sharing,job
Area unit,acre ^choice-unknown
Tax %,lots ^cell-unreadable
Material contingency %,0.05 ^percent-doubtful
Labour contingency %,90 ^rate-doubtful
Overhead %,"1,250 ^cell-ambiguous"
Profit %,-4 ^value-out-of-range
Profit basis,on turnover ^choice-unknown
Price rounding step,0.005 ^amount-too-fine
Breakage %,30 ^rate-doubtful
Pack rounding,street ^choice-unknown
Date,03/04/2026 ^cell-ambiguous
Start date,2026-02-30 ^cell-unreadable
Default kerf,thin ^cell-unreadable
Door width,0 ^value-out-of-range
Purchase tax is a cost,perhaps ^choice-unknown
Crews,0 ^value-out-of-range
Crew size,2.5 ^value-out-of-range
Hours a day,25 ^value-out-of-range
Building year,74 ^value-out-of-range
Measuring rule,generous ^choice-unknown
Seed,x ^cell-unreadable
Taks name ^setting-unknown,VAT
Tax % ^name-repeated,7
-- Suppliers --
Code,Name,Country,Lead time days,Minimum order,Delivery charge,Free delivery from,Discount %,Order discount %,Order discount from,Paid already,Payable rounded to
S1,North Timber,DE,5,200,45,1500,3,2.5,1000,250,0.05
S10,Bay,,,,,,,103 ^value-out-of-range,,,
S11,Cove,,,,,,,2.12345 ^value-out-of-range,,,
S12,Reef,,,,,,,,1000 ^value-out-of-range,,
S18,Fen,,,,,,,lots ^cell-unreadable,1000,,
S13,Sound,,,,,,,2,soon ^cell-unreadable,,
S14,Firth,,,,,,,0.05 ^percent-doubtful,,,
S15,Loch,,,,,,,,,10.001 ^amount-too-fine,
S16,Mere,,,,,,,,,-5 ^value-out-of-range,
S17,Tarn,,,,,,,,,,0.005 ^amount-too-fine
S2, ^cell-missing,,,,,,
S3,South,Germany ^value-out-of-range,,,,,
S4,East,,soon ^cell-unreadable,,,,
S5,West,,,200.005 ^amount-too-fine,,,
S6,Hill,,,,free ^cell-unreadable,,
S7,Dale,,,,,"1,500 ^cell-ambiguous",
S8,Moor,,,,,,103 ^value-out-of-range
s1 ^name-repeated,North again,,,,,,
-- Products --
Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Area per pack,Sold by,Price,Price per,Overlap,Weight
OAK,Oak plank,plank,S1,2.2,0.18,6,2.38 m2,pack,31.90,m2,,17.5
FILM,Vapour film,film,S1,50,2,,100 m2,roll,62,,0.2,
FILM2,Film,film,S1,50,2,,100 m2,roll,64,,0.2,
SKIRT,Skirting,trim,S1,2.4,,,,piece,7.9,,,
P1,Ash plank,bord ^choice-unknown,S1,0.18,2.2,6,,pack,31,,,
P2,Ash plank,plank,S99 ^name-unknown,2.2,0.18,6,,pack,31,,,
P3,Ash plank,plank,S1,2.2x ^cell-unreadable,0.18,6,,pack,31,,,
P4,Ash plank,plank,S1,2.2,"1,180 ^cell-ambiguous",6,,pack,31,,,
P5,Ash plank,plank,S1,2.2,0.18,6.5 ^value-out-of-range,,pack,31,,,
P6,Ash plank,plank,S1,2.2,0.18,6,two ^cell-unreadable,pack,31,,,
P7,Ash plank,plank,S1,2.2,0.18,6,,bundle ^choice-unknown,31,,,
P8,Ash plank,plank,S1,2.2,0.18,6,,pack, ^cell-missing,,,
P9,Ash plank,plank,S1,2.2,0.18,6,,pack,31,yard of cloth ^choice-unknown,,
P10,Ash plank,plank,S1,2.2,0.18,6,2.16 m2 ^pack-size-differs,pack,31,,,
P11,Ash plank,plank,S1,0.18,2.2 ^sides-swapped,6,,pack,31,,,
P12,Ash plank,plank,S1,0.02 ^piece-too-small,0.018,6,,pack,0.01,,,
P13,Film,film,S1,50,2,,,roll,0 ^price-zero,,0.2,
P14,Film,film,S1,50,2,,100 m2,roll,66 ^price-doubtful,m2,0.2,
P15,Film,film,S1,50,2,,,roll,60,,0.02 ^overlap-too-small,
P16,Skirting,trim,S1,2.4,,,,piece,8,m2 ^product-incomplete,,
P17, ^cell-missing,trim,S1,2.4,,,,piece,8,,,
P18,Film,film,S1,50,2,,,roll,60,,,heavy ^cell-unreadable
-- Products rules --
Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Sold by,Price,Least end piece,Least stagger,Least row width,Expansion gap,Kerf,Longest run,Lead time,Tax %,Joint,Order step,Minimum quantity,Returnable,Length of,Thickness,Line charge,Discount %
R1,Ash plank,plank,S1,2.2,0.18,6,pack,31,2.3 ^laying-rule-too-long,,,,,,,,,,,,,
R2,Ash plank,plank,S1,2.2,0.18,6,pack,31,,1.2 ^laying-rule-too-long,,,,,,,,,,,,
R3,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,0.2 ^laying-rule-too-long,,,,,,,,,,,
R4,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,wide ^cell-unreadable,,,,,,,,,,
R5,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,0.3 ^laying-rule-too-long,,,,,,,,,
R6,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,far ^cell-unreadable,,,,,,,,
R7,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,5000 ^value-out-of-range,,,,,,,
R8,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,0.19 ^percent-doubtful,,,,,,
R9,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,nailed ^choice-unknown,,,,,
R10,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,0 ^value-out-of-range,,,,
R11,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,-2 ^value-out-of-range,,,
R12,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,maybe ^choice-unknown,,
R13,Skirting,trim,S1,2.0,,,piece,7,,,,,,,,,,,,,OAK ^choice-unknown,
R14,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,,,thick ^cell-unreadable,
R15,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,,,,7.005 ^amount-too-fine
R16,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,,,,cutting ^cell-unreadable,
R17,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,,,,,101 ^value-out-of-range
R18,Ash plank,plank,S1,2.2,0.18,6,pack,31,,,,,,,,,,,,,,,,most ^cell-unreadable
-- Price breaks --
Product,From quantity,Price
OAK,10,30
OKA ^name-unknown,10,30
FILM, ^cell-missing,60
FILM,5,cheap ^cell-unreadable
-- Build-ups --
Build-up,Item,Measured by,Factor,Waste %
Oak floor,OAK,laid area,,
Oak floor,FILM,floor area,,
Oak floor,SKIRT,skirting,,
Oak floor,LAY,laid area,,
Unknown item,OKA2 ^name-unknown,laid area,,
Unknown measure,OAK,surface ^choice-unknown,,
Unfit ^build-up-no-covering,FILM,laid area,,
Unfit perimeter,OAK,perimeter ^measure-unfit,,
Factor,OAK,laid area,1.1 ^covering-factor,
Waste,OAK,laid area,,8 ^covering-factor
Two,OAK,laid area,,
Two,P2 ^build-up-coverings,laid area,,
Negative,OAK,laid area,,
Negative,FILM,floor area,-2 ^value-out-of-range,
Spoilt,OAK,laid area,,
Spoilt,FILM,floor area,,some ^cell-unreadable
Doubted,OAK,laid area,,
Doubted,FILM,floor area,,0.1 ^percent-doubtful
Kind not known,P1,laid area,,
Mend,LAY,rows,,
Mend,FILM ^repair-unfit,laid area,,
Mend,LAY ^repair-unfit,perimeter,,
-- Rooms --
Apartment type,Room,Build-up,Length,Width,Outline,Area,Perimeter,Laying direction,Doors
A,Living,Oak floor,5.2,3.6,,,,,
A,Study,Oak floor,4,3,,,,,
A,Studio,Oak floor,,,,,,,
A,M1,Oak flor ^name-unknown,3,2,,,,,
A,M2,Oak floor,3,2 tiles ^cell-unreadable,,,,,
A,M3,Oak floor,3,"2,500 ^cell-ambiguous",,,,,
A,M4,Oak floor,12-6 1/2 ^cell-ambiguous,3,,,,,
A,M5,Oak floor,3, ^cell-missing,,,,,
A,M6,Oak floor,-3.5 ^value-out-of-range,2,,,,,
A,M7,Oak floor,900 ^room-too-large,900,,,,,
A,M8,Oak floor,61 ^room-size-doubtful,3,,,,,
A,M9,Oak floor,3,TRUE ^cell-unreadable,,,,,
A,M10,Oak floor,3,2,,,,sideways ^cell-unreadable,
A,M11,Oak floor,3,2,,,,720 ^value-out-of-range,
A,M12,Oak floor,3,2,,7 m2 ^room-size-differs,,,
A,M13,Oak floor,3,2,,,12 ^room-size-differs,,
A,M14,Oak floor,,,,12 m2 ^room-shape-assumed,,,
A,M15,Oak floor,,,,12.5 m2,12 ^perimeter-too-short,,
A,M16 ^room-shape-missing,Oak floor,,,,,,,
A,M17,Oak floor,,,"E 5, N 2, W 4, S 2 ^room-not-closed",,,,
A,M18,Oak floor,,,"E 5, N 2, W 2, S 3, W 3, N 1 ^room-outline-bad",,,,
A,M19,Oak floor,,,"E 5, 2, W 5 ^cell-unreadable",,,,
A,M20,Oak floor,3,2,,,,,1.5 ^value-out-of-range
A,M21,Oak floor,3,2,,,,,1000000 ^value-out-of-range
A,M22,Oak floor,3,2,,,,toward light: 9 ^opening-wall-unknown,
A, ^cell-missing,Oak floor,3,2,,,,,
A,living ^name-repeated,Oak floor,3,2,,,,,
A,M23,Oak floor,3,0 ^value-out-of-range,,,,,
Total ^row-skipped,,,900,,,,,,
-- Rooms level 2 --
Apartment type,Room,Build-up,Length,Width,Level by,Lift old floor,Skirting,Heated,Moisture reading,Steps
A,N1,Oak floor,3,2,deep ^cell-unreadable,,,,,
A,N2,Oak floor,3,2,,if needed ^name-unknown,,,,
A,N3,Oak floor,3,2,,,some sides ^choice-unknown,,,
A,N4,Oak floor,3,2,,,,a little ^choice-unknown,,
A,N5 floor,Oak floor,3,2,,,,,damp ^cell-unreadable,
A,N6,Oak floor,3,2,,,,,,half ^cell-unreadable
A,N7,Oak floor,=NOSUCH(1) ^formula-unknown,2,,,,,,
A,N8,Unfit,=1+2 ^formula-calculated,2,,,,,,
A,N9,Oak floor,3,3.2 m2 ^cell-unreadable,,,,,,
B ^type-unused,Nook,Oak floor,3,2,,,,,,
-- Corners --
Apartment type,Room,Ring,X,Y
A,Studio,1,0,0
A,Studio,1,6,0
A,Studio,1,6,4
A,Studio,1,0,4
A,Attic ^name-unknown,1,0,0
C ^name-unknown,Studio,1,0,0
-- Openings --
Apartment type,Room,Wall,From corner,Width,Profile,Undercut,Wall depth
A,Living,1,0.5,0.9,SKIRT,,
A,Livin ^name-unknown,1,0.5,0.9,,,
D ^name-unknown,Study,1,0.5,0.9,,,
A,Study,7 ^opening-wall-unknown,0.5,0.9,,,
A,Study,left ^cell-unreadable,0.5,0.9,,,
A,Study,1,0.5,9 ^opening-too-wide,,,
A,Study,2,2.5 ^opening-too-wide,0.9,,,
A,Study,3,0.5,0.9,SKRIT ^name-unknown,,
A,Study,4,0.5,0.9,,partly ^choice-unknown,
A,Living,1 ^openings-overlap,1,0.9,,,
A,Studio,1,0.5,0.9,,,deep ^cell-unreadable
A,Studio,2,0.5, ^cell-missing,,,
A,Studio,3,close ^cell-unreadable,0.9,,,
A,M1,1,0.5,0.9,,,
-- Fixtures --
Apartment type,Room,X,Y,Length,Width,Floor under
A,Living,1,1,0.4,0.4,
A,Living,1.2 ^fixtures-overlap,1.2,0.4,0.4,
A,Living,11 ^fixture-outside,1,0.4,0.4,
A,Living,2,1,0 ^value-out-of-range,0.4,
A,Living,here ^cell-unreadable,1,0.4,0.4,
A,Living,3,1,0.4,0.4,both ^choice-unknown
A,Kitchen ^name-unknown,1,1,0.4,0.4,
-- Apartments --
Apartment,Type,Floor,Mirrored,Count,Start date
1.01,A,1,no,,
1.02,A,1,turned ^choice-unknown,,
1.03,Z ^name-unknown,1,,,
1.04,A,1,,0 ^value-out-of-range,
1.05,A,1,,many ^cell-unreadable,
1.06,A,1,,,01/02/2026 ^cell-ambiguous
1.01 ^name-repeated,A,1,,,
1.07, ^cell-missing,1,,,
-- Operations --
Code,Description,Measured by,Hours per unit,Trade,Least hours
LAY,Lay planks,laid area,0.35,Layer,
O1,Grind,the yard ^choice-unknown,0.2,Layer,
O2,Sweep,laid area,-0.3 ^value-out-of-range,Layer,
O3,Level,laid area,350 ^hours-doubtful,Layer,
O4,Prime,laid area,0.2,Painter ^name-unknown,
O5,Trim,laid area,0.2,Layer,long ^cell-unreadable
O6, ^cell-missing,laid area,0.2,Layer,
FILM ^name-repeated,Film,laid area,0.2,Layer,
-- Trades --
Trade,Wage,Burden %,Overtime factor
Layer,24.5,38,
Helper,0 ^price-zero,,
Driver,£19 ^cell-unreadable,,
Foreman,30,high ^cell-unreadable,
Mason,31,,double ^cell-unreadable
layer ^name-repeated,24,,
-- Extras --
Description,Per,Unit cost,Quantity,Tax %
Skip,job,240,,
Lift,house ^choice-unknown,240,,
Van,job,"1,240 ^cell-ambiguous",,
Fence,job,0 ^price-zero,,
Guard,job,50,few ^cell-unreadable,
Cover,job,50,,0.2 ^percent-doubtful
Crane,job, ^cell-missing,,
-- Loose lengths --
Product,Length,Count
SKIRT,1.2,3
SKERT ^name-unknown,1.2,3
SKIRT,short ^cell-unreadable,3
SKIRT,1.2,1000000000 ^value-out-of-range
-- Remnants --
Product,Length,Count
SKIRT,1.2,3
FILM ^choice-unknown,1.2,3
SKIRT,1.2,none ^cell-unreadable
-- Repairs --
Apartment,Room,Product,Damaged planks,Length,From stock,Method,Rows to take up
1.01,Living,OAK,3,,1,Mend,2
1.01, ^cell-missing,OAK,3,,,Mend,2
7.07 ^repair-unlisted,Living,OAK,3,,,Mend,2
1.01,Living,OKA3 ^name-unknown,3,,,Mend,2
1.01,Living,OAK,0 ^value-out-of-range,,,Mend,2
1.01,Living,OAK,some ^cell-unreadable,,,Mend,2
1.01,Living,OAK,3,2.3 ^value-out-of-range,,Mend,2
1.01,Living,OAK,3,,4 ^repair-stock-excess,Mend,2
1.01,Living,OAK,5,0.7,3 ^repair-stock-excess,Mend,2
1.01,Living,OAK,3,,,Mind ^name-unknown,2
1.01,Living,OAK,3,,,Mend, ^repair-rows-missing
1.01,Living,SKIRT ^repair-unfit,3,,,Mend,2
1.01,Living,P1,3,,,Mend,2
1.01,Living,P4,3,,,Mend,2
`

// takeMarks takes the marks out of the planted workbook: what is left of it,
// and the problems they ask for, in the order of the sheets, rows and columns.
func takeMarks(t *testing.T, text string) (unmarked string, want []string) {
	t.Helper()
	var out bytes.Buffer
	sheet, number := "", 0
	for line := range strings.Lines(text) {
		if name, ok := strings.CutPrefix(line, "-- "); ok {
			sheet, number = strings.TrimSuffix(name, " --\n"), 0
			out.WriteString(line)
			continue
		}
		number++
		reader := csv.NewReader(strings.NewReader(line))
		fields, err := reader.Read()
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		for i, field := range fields {
			value, code, marked := strings.Cut(field, " ^")
			fields[i] = value
			if marked {
				want = append(want, fmt.Sprintf("%s %s", problem.Ref{Sheet: sheet, Row: number, Col: i + 1}, code))
			}
		}
		writer := csv.NewWriter(&out)
		if err := writer.Write(fields); err != nil {
			t.Fatal(err)
		}
		writer.Flush()
	}
	return out.String(), want
}

// Every one of many faults in one workbook is named at its cell, and nothing
// besides: no fault hides another, and none is followed by noise.
func TestManyFaultsAtOnce(t *testing.T) {
	text, want := takeMarks(t, planted)
	if len(want) < 120 {
		t.Fatalf("only %d faults are planted", len(want))
	}
	_, problems := Read(workbook(t, text))
	if diff := cmp.Diff(want, brief(problems)); diff != "" {
		t.Error(diff)
	}
}
