package cmd

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"laybill/estimate/proof"
)

// Names of the claims of the proof that faults in a plan must break.
const (
	coveredOnce  = "floors: covered once inside the gap, nowhere outside"
	numbered     = "floors: pieces are numbered by row and place"
	staggered    = "joints: least stagger"
	inPattern    = "joints: in the product's pattern"
	inBands      = "rows: bands as wide as the plank"
	inBlocks     = "blocks: pieces lie in the blocks of the pattern"
	leastAndMost = "rows: boards of random lengths, at least and at most"
	apartByKerf  = "planks: pieces apart by the kerf"
	factorySides = "planks: factory ends and edges meet"
	sharedSoFar  = "planks: off-cuts shared as far as the job says"
	everyPlace   = "material: packs and spares of every place"
	countedOnce  = "planks: each used, counted once in its pool"
	boundProven  = "planks: lower bound proven"
	runsCovered  = "trims: runs less openings, with what ends add"
	partsAddUp   = "material: bought is the sum of its parts"
	laidInRooms  = "material: laid is what lies in the rooms"
	asOrdered    = "material: bought is what is ordered"
)

// faultJob is a job laid in one of the ways there are, in two apartments, so that
// one pool of off-cuts lies beside another.
type faultJob struct {
	way    string
	kind   string // of the layout that faults are planted in
	plank  string // length, width, pieces per pack, pattern, longest run, joint, shortest length, area per pack
	sheets map[string]string
}

var faultJobs = []faultJob{
	{"plain rows", "plank", "1285,192,8,,,,,", nil},
	{"half", "plank", "1285,192,8,half,,,,", nil},
	{"third", "plank", "1285,192,8,third,,,,", nil},
	{"glued down", "plank", "1285,192,8,,,glue-down,,", nil},
	{"fields", "plank", "1285,192,8,,8000,,,", map[string]string{
		"Rooms.csv":    "Apartment type,Room,Build-up,Length,Width\nA,Living,Floor,12000,4000\nA,Bed,Floor,3600,2900\n",
		"Openings.csv": "Apartment type,Room,Wall,From corner,Width,Leads to,Profile\nA,Living,S,500,800,Stairs,DOOR\n",
	}},
	{"through an opening", "plank", "1285,192,8,,,,,", map[string]string{
		"Openings.csv": "Apartment type,Room,Wall,From corner,Width,Wall depth,Leads to,Laid through,Profile\n" +
			"A,Living,E,1000,900,120,Bed,yes,\nA,Bed,W,1000,900,120,Living,,\nA,Bed,E,500,800,,Hall,,DOOR\n",
	}},
	{"herringbone", "herringbone", "600,100,20,herringbone,,,,", nil},
	{"chevron", "chevron", "500,90,18,chevron,,,,", nil},
	{"random lengths", "racked", "1800,192,,,,,600,2", nil},
}

func (j faultJob) result(t *testing.T) []byte {
	sheets := map[string]string{
		"Products.csv": "Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Pattern,Longest run,Joint,Shortest length,Area per pack,Sold by,Price,Price per\n" +
			"OAK,Oak plank,plank,NOR," + j.plank + ",pack,15,m2\nSKIR,Skirting,trim,NOR,2400,95,,,,,,,piece,5,\n" +
			"DOOR,Doorway profile,trim,NOR,930,40,,,,,,,piece,9,\nEXP,Expansion profile,trim,NOR,2700,40,,,,,,,piece,12,\n",
		"Build-ups.csv":  "Build-up,Item,Measured by\nFloor,OAK,laid area\nFloor,LAY,laid area\nFloor,EXP,expansion profiles\nFloor,SKIR,skirting\n",
		"Rooms.csv":      "Apartment type,Room,Build-up,Length,Width\nA,Living,Floor,5200,3900\nA,Bed,Floor,3600,2900\n",
		"Openings.csv":   "Apartment type,Room,Wall,From corner,Width,Leads to,Profile\nA,Living,E,1000,900,Bed,DOOR\nA,Bed,W,1000,900,Living,\n",
		"Apartments.csv": "Apartment,Type,Floor\nE1,A,1\nE2,A,2\n",
	}
	for name, content := range j.sheets {
		sheets[name] = content
	}
	return resultOf(t, sheets)
}

// rows tells floors of planks in rows.
func (j faultJob) rows() bool { return j.kind == "plank" }

func (j faultJob) blocks() bool { return j.kind == "herringbone" || j.kind == "chevron" }

func (j faultJob) racked() bool { return j.kind == "racked" }

// handed: a starter needs the right end of its plank, an end piece the left.
func (j faultJob) handed() bool { return j.rows() && j.way != "glued down" }

func (j faultJob) patterned() bool { return j.way == "half" || j.way == "third" }

func (j faultJob) any() bool { return true }

// planFault is one fault in a plan and the claim that it breaks.
type planFault struct {
	name  string
	in    func(faultJob) bool
	plant func(*plan)
	claim string
}

var planFaults = []planFault{
	{"joint moved by 1 mm", faultJob.rows, (*plan).moveJoint, factorySides},
	{"joint moved by 1 mm, out of pattern", faultJob.patterned, (*plan).moveJoint, inPattern},
	{"wrong hand", faultJob.handed, func(p *plan) {
		i := p.find("a starter cut short", func(i int) bool { return p.in(i)[0] > 0 && p.joint(i) >= 0 })
		in := p.in(i)
		p.putIn(i, [4]int64{0, in[1], in[2] - in[0], in[3]})
	}, factorySides},
	{"piece cut from the middle of a plank", faultJob.rows, func(p *plan) {
		i := p.find("a starter cut short", func(i int) bool { return p.in(i)[0] > unitMM && p.joint(i) >= 0 })
		in := p.in(i)
		p.putIn(i, [4]int64{in[0] - unitMM, in[1], in[2] - unitMM, in[3]})
	}, factorySides},
	{"hand exchanged", faultJob.blocks, func(p *plan) {
		p.piece(0)["hand"] = map[any]string{"left": "right", "right": "left"}[p.piece(0)["hand"]]
	}, factorySides},
	{"kerf eaten", faultJob.rows, (*plan).eatKerf, apartByKerf},
	{"two whole pieces from one plank", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		first := p.find("a whole piece", func(i int) bool { return p.whole(i) })
		second := p.find("another", func(i int) bool { return i > first && p.whole(i) && p.piece(i)["hand"] == p.piece(first)["hand"] })
		p.piece(second)["stock"] = p.piece(first)["stock"]
	}, apartByKerf},
	{"piece twice", faultJob.any, func(p *plan) { p.layout["pieces"] = append(p.pieces(), p.pieces()[1]) }, coveredOnce},
	{"piece missing", faultJob.any, func(p *plan) { p.layout["pieces"] = slices.Delete(p.pieces(), 1, 2) }, coveredOnce},
	{"two rows swapped", faultJob.rows, (*plan).swapRows, numbered},
	{"two rows swapped, unbroken", faultJob.racked, (*plan).swapRows, inBands},
	{"joint in line with the next row's", faultJob.rows, (*plan).lineUp, staggered},
	{"piece 1 mm into the gap", func(j faultJob) bool { return !j.blocks() }, func(p *plan) {
		least := p.bounds(p.find("the piece at the wall", func(i int) bool { return p.piece(i)["row"] == json.Number("1") }))[0]
		p.shift(0, least, -unitMM)
	}, coveredOnce},
	{"floor 1 mm into the gap", faultJob.blocks, func(p *plan) {
		for i := range p.pieces() {
			at := p.at(i)
			for k := range at {
				at[k][0] -= unitMM
			}
			p.putAt(i, at)
		}
	}, coveredOnce},
	{"planks turned by 90 degrees", faultJob.any, func(p *plan) {
		turned, _ := p.layout["direction_deg"].(json.Number).Float64()
		p.layout["direction_deg"] = turned + 90
	}, coveredOnce},
	{"phase 1 mm off", faultJob.patterned, func(p *plan) {
		pattern := p.layout["pattern"].(map[string]any)
		pattern["phase_mm"] = millimetres(units(pattern["phase_mm"]) + unitMM)
	}, inPattern},
	{"pattern begun 1 mm off", faultJob.blocks, func(p *plan) {
		origin := p.layout["blocks"].(map[string]any)["origin_mm"].([]any)
		origin[0] = millimetres(units(origin[0]) + unitMM)
	}, inBlocks},
	{"doorway profile removed", faultJob.any, func(p *plan) { p.forget("DOOR") }, runsCovered},
	{"skirting removed", faultJob.any, func(p *plan) { p.forget("SKIR") }, runsCovered},
	{"expansion profile removed", func(j faultJob) bool { return j.way == "fields" }, func(p *plan) { p.forget("EXP") }, runsCovered},
	{"plank from another pool", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		plank := p.list("stock")[0].(map[string]any)
		plank["pool"], plank["number"] = p.otherPool(plank["pool"]), 100_000
	}, countedOnce},
	{"room laid from another pool", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		room := p.list("rooms")[0].(map[string]any)
		room["pool"] = p.otherPool(room["pool"])
	}, countedOnce},
	{"room shares with another pool", faultJob.racked, func(p *plan) {
		room := p.list("rooms")[0].(map[string]any)
		room["pool"] = p.otherPool(room["pool"])
	}, leastAndMost},
	{"off-cuts carried from room to room", func(j faultJob) bool { return j.way != "through an opening" }, func(p *plan) {
		p.file["job"].(map[string]any)["offcut_sharing"] = "room"
	}, sharedSoFar},
	// 129 planks an apartment are 16.1 packs of 8: 33 for both together, 17 for each.
	{"packs opened in every apartment, rounded over the job", func(j faultJob) bool { return j.way == "plain rows" }, func(p *plan) {
		p.file["job"].(map[string]any)["pack_rounding"] = "apartment"
	}, everyPlace},
	{"plank in two packs", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		p.file["stock"] = append(p.list("stock"), p.list("stock")[0])
	}, countedOnce},
	{"plank of a layout not counted", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		p.layout["planks"] = plus(p.layout["planks"], -1)
	}, countedOnce},
	{"bound raised by 1", func(j faultJob) bool { return !j.racked() }, func(p *plan) {
		for _, pool := range p.list("pools") {
			bound := pool.(map[string]any)
			proven := bound["lower_bound_planks"]
			if proven == nil {
				proven = bound["planks"]
			}
			bound["lower_bound_planks"] = plus(proven, 1)
		}
	}, boundProven},
	{"row of the certificate dearer by 1", func(j faultJob) bool { return j.way == "plain rows" || j.way == "glued down" }, func(p *plan) {
		row := p.list("pools")[0].(map[string]any)["certificate"].(map[string]any)["rows"].([]any)[0].(map[string]any)
		row["price"] = plus(row["price"], 1)
	}, boundProven},
	{"the most 1 unit less", faultJob.racked, func(p *plan) {
		racked := p.layout["racked"].(map[string]any)
		racked["most"] = plus(racked["most"], -1)
	}, leastAndMost},
	{"pack one short", faultJob.any, func(p *plan) { p.orderLess(1) }, asOrdered},
	{"pack one short, and less left over", func(j faultJob) bool { return j.rows() }, func(p *plan) { p.accountLess(p.orderLess(1)) }, partsAddUp},
	{"packs short of either hand", faultJob.blocks, func(p *plan) { p.accountLess(p.orderLess(2)) }, asOrdered},
	{"packs short of the most", faultJob.racked, func(p *plan) { p.accountLess(p.orderLess(2)) }, laidInRooms},
}

// TestFaultsInPlansAreCaught plants one fault at a time in the result file of a
// job laid in each of the ways there are: the proof must reject it, by the claim
// that it breaks.
func TestFaultsInPlansAreCaught(t *testing.T) {
	for _, job := range faultJobs {
		t.Run(job.way, func(t *testing.T) {
			text := job.result(t)
			if broken := brokenClaims(t, planOf(t, text, job.kind).file); len(broken) > 0 {
				t.Fatalf("the plan does not hold as it is: %q", broken)
			}
			for _, fault := range planFaults {
				if !fault.in(job) {
					continue
				}
				t.Run(fault.name, func(t *testing.T) {
					p := planOf(t, text, job.kind)
					fault.plant(p)
					if broken := brokenClaims(t, p.file); !slices.Contains(broken, fault.claim) {
						t.Errorf("%q holds; broken: %q", fault.claim, broken)
					}
				})
			}
		})
	}
}

func brokenClaims(t *testing.T, file any) []string {
	t.Helper()
	text, err := json.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	report, err := proof.Check(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var broken []string
	for _, claim := range report.Claims {
		if !claim.OK {
			broken = append(broken, claim.Name)
		}
	}
	return broken
}

// plan is a decoded result file and one layout of it. Lengths are in 1/320 mm.
type plan struct {
	t      *testing.T
	file   map[string]any
	layout map[string]any
}

const unitMM = 320

func planOf(t *testing.T, text []byte, kind string) *plan {
	t.Helper()
	p := &plan{t: t}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&p.file); err != nil {
		t.Fatal(err)
	}
	for _, l := range p.list("layouts") {
		if layout := l.(map[string]any); layout["kind"] == kind {
			p.layout = layout // the last: of the larger room
		}
	}
	if p.layout == nil {
		t.Fatalf("no layout of kind %s", kind)
	}
	return p
}

func (p *plan) list(key string) []any { return p.file[key].([]any) }

func (p *plan) pieces() []any { return p.layout["pieces"].([]any) }

func (p *plan) piece(i int) map[string]any { return p.pieces()[i].(map[string]any) }

func units(v any) int64 {
	mm, _ := v.(json.Number).Float64()
	return int64(math.Round(mm * unitMM))
}

func millimetres(units int64) json.Number {
	return json.Number(strconv.FormatFloat(float64(units)/unitMM, 'f', -1, 64))
}

func plus(v any, n int64) json.Number {
	whole, _ := v.(json.Number).Int64()
	return json.Number(strconv.FormatInt(whole+n, 10))
}

func (p *plan) at(i int) [][2]int64 {
	var at [][2]int64
	for _, corner := range p.piece(i)["at_mm"].([]any) {
		at = append(at, [2]int64{units(corner.([]any)[0]), units(corner.([]any)[1])})
	}
	return at
}

func (p *plan) putAt(i int, at [][2]int64) {
	var corners []any
	for _, c := range at {
		corners = append(corners, []any{millimetres(c[0]), millimetres(c[1])})
	}
	p.piece(i)["at_mm"] = corners
}

// in is the rectangle of its plank that a piece is cut from.
func (p *plan) in(i int) (in [4]int64) {
	for k, v := range p.piece(i)["in_stock_mm"].([]any) {
		in[k] = units(v)
	}
	return in
}

func (p *plan) putIn(i int, in [4]int64) {
	var sides []any
	for _, v := range in {
		sides = append(sides, millimetres(v))
	}
	p.piece(i)["in_stock_mm"] = sides
}

// bounds are the least and the greatest x and y of a piece: x0, y0, x1, y1.
func (p *plan) bounds(i int) [4]int64 {
	at := p.at(i)
	b := [4]int64{at[0][0], at[0][1], at[0][0], at[0][1]}
	for _, c := range at {
		b = [4]int64{min(b[0], c[0]), min(b[1], c[1]), max(b[2], c[0]), max(b[3], c[1])}
	}
	return b
}

// find is the first piece that is as wanted.
func (p *plan) find(what string, is func(i int) bool) int {
	p.t.Helper()
	for i := range p.pieces() {
		if is(i) {
			return i
		}
	}
	p.t.Fatalf("the plan has not got %s", what)
	return -1
}

// whole tells a piece that takes its whole plank.
func (p *plan) whole(i int) bool {
	plank := p.list("stock")[0].(map[string]any)
	in := p.in(i)
	return in[0] == 0 && in[1] == 0 && (in[2] == units(plank["length_mm"]) || p.piece(i)["hand"] != nil && in[2]-in[0] == p.widest(2) && in[3]-in[1] == p.widest(3))
}

// widest is the greatest extent of the pieces of the first piece's hand.
func (p *plan) widest(side int) int64 {
	most := int64(0)
	for i := range p.pieces() {
		in := p.in(i)
		most = max(most, in[side]-in[side-2])
	}
	return most
}

// joint is the piece that a piece meets with its right end, both rectangles; -1
// when there is none.
func (p *plan) joint(i int) int {
	if i+1 >= len(p.pieces()) || len(p.at(i)) != 4 || len(p.at(i+1)) != 4 {
		return -1
	}
	a, b := p.bounds(i), p.bounds(i+1)
	if p.piece(i)["row"] != p.piece(i + 1)["row"] || a[2] != b[0] || a[1] != b[1] || a[3] != b[3] {
		return -1
	}
	return i + 1
}

// shift moves the corners of a piece that lie at x.
func (p *plan) shift(i int, x, by int64) {
	at := p.at(i)
	for k := range at {
		if at[k][0] == x {
			at[k][0] += by
		}
	}
	p.putAt(i, at)
}

// moveTo moves the joint after a piece, and cuts both pieces anew where their
// planks have wood left.
func (p *plan) moveTo(i int, x int64) {
	from := p.bounds(i)[2]
	p.shift(i, from, x-from)
	p.shift(i+1, from, x-from)
	a, b := p.in(i), p.in(i+1)
	a[0] -= x - from
	b[0] += x - from
	p.putIn(i, a)
	p.putIn(i+1, b)
}

func (p *plan) moveJoint() {
	i := p.find("a joint before a whole plank with another behind it", func(i int) bool { return p.joint(i) >= 0 && p.joint(i+1) >= 0 })
	p.moveTo(i, p.bounds(i)[2]+unitMM)
}

// lineUp moves a joint of a row to that of the next one that is nearest.
func (p *plan) lineUp() {
	for i := range p.pieces() {
		for k := range p.pieces() {
			if p.joint(i) < 0 || p.joint(k) < 0 || p.piece(k)["row"] != plus(p.piece(i)["row"], 1) {
				continue
			}
			if a, b, x := p.bounds(i), p.bounds(i+1), p.bounds(k)[2]; a[3] == p.bounds(k)[1] && a[0] < x && x < b[2] {
				p.moveTo(i, x)
				return
			}
		}
	}
	p.t.Fatal("no joint can be moved to one of the next row")
}

// eatKerf moves a piece in its plank until it is a unit nearer to the other one
// than a saw cut.
func (p *plan) eatKerf() {
	kerf := units(p.layout["kerf_mm"])
	for i := range p.pieces() {
		for k := range p.pieces() {
			a, b := p.in(i), p.in(k)
			if i != k && p.piece(i)["stock"] == p.piece(k)["stock"] && a[2]+kerf <= b[0] {
				nearer := b[0] - a[2] - kerf + 1
				p.putIn(k, [4]int64{b[0] - nearer, b[1], b[2] - nearer, b[3]})
				return
			}
		}
	}
	p.t.Fatal("no two pieces are cut from one plank")
}

func (p *plan) swapRows() {
	for i := range p.pieces() {
		switch row := p.piece(i)["row"]; row {
		case json.Number("2"):
			p.piece(i)["row"] = json.Number("3")
		case json.Number("3"):
			p.piece(i)["row"] = json.Number("2")
		}
	}
}

// otherPool is the pool of the other apartment.
func (p *plan) otherPool(pool any) any {
	for _, r := range p.list("rooms") {
		if room := r.(map[string]any); room["pool"] != pool {
			return room["pool"]
		}
	}
	p.t.Fatal("all rooms share one pool")
	return nil
}

// forget takes a trim out of the pieces to be cut and of the bars.
func (p *plan) forget(product string) {
	for _, key := range []string{"lengths", "trims", "trim_choices"} {
		left := slices.DeleteFunc(p.list(key), func(e any) bool { return e.(map[string]any)["product"] == product })
		if key == "lengths" && len(left) == len(p.list(key)) {
			p.t.Fatalf("no %s is cut", product)
		}
		p.file[key] = left
	}
}

// orderLess orders packs fewer of the planks and returns how much less that is.
func (p *plan) orderLess(packs int64) int64 {
	for _, o := range p.list("orders") {
		for _, l := range o.(map[string]any)["lines"].([]any) {
			line := l.(map[string]any)
			if line["product"] != "OAK" {
				continue
			}
			line["quantity"] = less(line["quantity"], packs)
			line["packs"] = less(line["packs"], packs)
			if each, counted := line["pieces_per_pack"].(json.Number); counted && line["pieces"] != nil {
				n, _ := each.Int64()
				line["pieces"] = less(line["pieces"], packs*n)
				return packs * n
			}
			return packs
		}
	}
	p.t.Fatal("no planks are ordered")
	return 0
}

// less takes a number off a decimal that stands as text; null stays null.
func less(v any, n int64) any {
	text, stated := v.(string)
	if !stated {
		return v
	}
	whole, _ := strconv.ParseInt(text, 10, 64)
	return strconv.FormatInt(whole-n, 10)
}

// accountLess takes pieces, or sold units of what does not come in pieces, off
// what is bought and what is left over.
func (p *plan) accountLess(n int64) {
	for _, m := range p.list("materials") {
		material := m.(map[string]any)
		if material["product"] != "OAK" {
			continue
		}
		each, counted := material["piece"].(json.Number)
		if !counted {
			each = json.Number(strings.TrimSuffix(material["per_sold_unit"].(string), ".0"))
		}
		size, err := each.Int64()
		if err != nil {
			p.t.Fatal(err)
		}
		material["bought"] = plus(material["bought"], -n*size)
		material["left_over"] = plus(material["left_over"], -n*size)
	}
}
