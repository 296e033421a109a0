package in

import (
	"encoding/csv"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"laybill/sheet/book"
)

// workbook builds a workbook from text: a line "-- Name --" begins a sheet,
// the lines under it are its rows as CSV. A number becomes a number, 8.25% a
// percentage cell, =A1 a formula without a value, 'x the text x, TRUE a
// boolean.
func workbook(t testing.TB, text string) *book.Book {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	percent, err := f.NewStyle(&excelize.Style{NumFmt: 10})
	if err != nil {
		t.Fatal(err)
	}
	sheet, row := "", 0
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if name, ok := strings.CutPrefix(line, "-- "); ok {
			sheet, row = strings.TrimSuffix(name, " --"), 0
			if _, err := f.NewSheet(sheet); err != nil {
				t.Fatal(err)
			}
			continue
		}
		row++
		reader := csv.NewReader(strings.NewReader(line))
		reader.LazyQuotes = true
		fields, err := reader.Read()
		if err != nil {
			continue // a blank line
		}
		for i, field := range fields {
			at, _ := excelize.CoordinatesToCellName(i+1, row)
			if err := setCell(f, sheet, at, field, percent); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := f.DeleteSheet("Sheet1"); err != nil {
		t.Fatal(err)
	}
	data, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.OpenBytes(data.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func setCell(f *excelize.File, sheet, at, field string, percent int) error {
	number, share := strings.CutSuffix(field, "%")
	value, err := strconv.ParseFloat(number, 64)
	switch {
	case field == "":
		return nil
	case err == nil && share:
		if err := f.SetCellStyle(sheet, at, at, percent); err != nil {
			return err
		}
		return f.SetCellDefault(sheet, at, strconv.FormatFloat(value/100, 'g', -1, 64))
	case err == nil:
		return f.SetCellDefault(sheet, at, field)
	case field == "TRUE" || field == "FALSE":
		return f.SetCellBool(sheet, at, field == "TRUE")
	case strings.HasPrefix(field, "="):
		return f.SetCellFormula(sheet, at, field[1:])
	}
	return f.SetCellStr(sheet, at, strings.TrimPrefix(field, "'"))
}

// small is a sound job that uses every table.
const small = `-- Job --
Setting,Value,Note
Job name,Harbour Row
Currency,EUR
Length unit,m
Tax %,19
Profit %,12
Price rounding step,0.05
Off-cut sharing,apartment
Pack rounding,job
Date,2026-03-31
-- Suppliers --
Code,Name,Country,Lead time days,Minimum order,Delivery charge,Free delivery from,Discount %
S1,North Timber,DE,5,200,45,1500,3
-- Products --
Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Area per pack,Sold by,Price,Price per,Overlap,Weight
OAK,Oak plank,plank,S1,2.2,0.18,6,2.376,pack,31.90,m2,,17.5
FILM,Vapour film,film,S1,50,2,,,roll,62,,0.2,
SKIRT,Skirting,trim,S1,2.4,,,,piece,7.9,,,
-- Build-ups --
Build-up,Item,Measured by,Factor,Waste %
Oak floor,OAK,laid area,,
Oak floor,FILM,floor area,,
Oak floor,SKIRT,skirting,,
Oak floor,LAY,laid area,,
-- Rooms --
Apartment type,Room,Build-up,Length,Width,Outline,Area,Perimeter,Laying direction,Doors
A,Living,Oak floor,,,"E 5.2, N 2.4, W 1.2, N 1.2, W 4.0, S 3.6",,,,
A,Bed,Oak floor,4.1,3.82,,,,along width,1
B,Studio,Oak floor,,,,,,toward light: N,
-- Corners --
Apartment type,Room,Ring,X,Y
B,Studio,1,0,0
B,Studio,1,6,0
B,Studio,1,6,4
B,Studio,1,0,4
B,Studio,2,2,2
B,Studio,2,2,2.5
B,Studio,2,2.5,2.5
B,Studio,2,2.5,2
-- Openings --
Apartment type,Room,Wall,From corner,Width,Profile
A,Living,1,0.5,0.9,SKIRT
A,Living,W,,0.9,
-- Fixtures --
Apartment type,Room,X,Y,Length,Width
A,Living,1,1,0.4,0.4
-- Apartments --
Apartment,Type,Floor,Mirrored
1.01,A,1,no
1.02,A,1,yes
2.01,B,2,
-- Operations --
Code,Description,Measured by,Hours per unit,Trade
LAY,Lay planks,laid area,0.35,Layer
-- Trades --
Trade,Wage,Burden %
Layer,24.5,38
-- Extras --
Description,Per,Unit cost
Skip,job,240
-- Loose lengths --
Product,Length,Count
SKIRT,1.2,3
`
