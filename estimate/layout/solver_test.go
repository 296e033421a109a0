package layout

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
	"laybill/estimate/shape"
)

// programme is an integer programme in the LP format that solvers read.
type programme struct {
	cost, rules, whole []string
}

func (p *programme) variable(cost int, format string, of ...any) string {
	name := fmt.Sprintf(format, of...)
	p.whole = append(p.whole, name)
	p.cost = append(p.cost, fmt.Sprintf("%d %s", cost, name))
	return name
}

func (p *programme) equal(plus, minus []string, right int) {
	line := " " + strings.Join(plus, " + ")
	for _, name := range minus {
		line += " - " + name
	}
	p.rules = append(p.rules, fmt.Sprintf("%s = %d", line, right))
}

func (p *programme) String() string {
	return "Minimize\n planks: " + strings.Join(p.cost, "\n + ") + "\nSubject To\n" + strings.Join(p.rules, "\n") +
		"\nGeneral\n " + strings.Join(p.whole, "\n ") + "\nEnd\n"
}

// coarse is the grid of the programmes. With plank, kerf, least end and rows that
// are whole multiples of it the best starters are so too: for given partners they
// need only keep differences of whole multiples.
const coarse = 10 * mm

// handedProgramme counts the planks of rows with handed ends as a flow of
// off-cuts by their length: a row takes one with a right end for its starter and
// leaves one where its end piece is cut; off-cuts may be shortened.
func handedProgramme(p Pool, rows map[measure.Length]int) string {
	var m programme
	length, kerf, end := int(p.Plank.Length/coarse), int(p.Rules.Kerf/coarse), int(p.Rules.LeastEnd/coarse)
	out, in := make([][]string, length+1), make([][]string, length+1)
	arc := func(from, to int, name string) string {
		out[from] = append(out[from], name)
		in[max(0, to)] = append(in[max(0, to)], name)
		return name
	}
	in[length] = append(in[length], m.variable(1, "fresh"))
	for level := 1; level <= length; level++ {
		arc(level, level-1, m.variable(0, "waste%d", level))
	}
	out[0] = append(out[0], m.variable(0, "gone"))
	for _, row := range sortedLengths(rows) {
		long := int(row / coarse)
		var ways []string
		for a := 1; a <= length; a++ {
			for whole := 0; whole*length < long; whole++ {
				b := long - a - whole*length
				if a >= end && b >= end && b <= length && long > length {
					ways = append(ways, arc(a, length-b-kerf, m.variable(whole+1, "long%d_%d_%d", long, a, whole)))
				}
			}
			if long <= length && a >= long {
				ways = append(ways, arc(a, a-long-kerf, m.variable(0, "single%d_%d", long, a)))
			}
		}
		m.equal(ways, nil, rows[row])
	}
	for level := range out {
		m.equal(in[level], out[level], 0)
	}
	return m.String()
}

// freeProgramme counts planks where any two pieces may share one, long rows only.
func freeProgramme(p Pool, rows map[measure.Length]int) string {
	var m programme
	length, kerf, end := int(p.Plank.Length/coarse), int(p.Rules.Kerf/coarse), int(p.Rules.LeastEnd/coarse)
	made, used := make([][]string, length+1), make([][]string, length+1)
	for _, row := range sortedLengths(rows) {
		long := int(row / coarse)
		var ways []string
		for a := end; a <= length; a++ {
			for whole := 0; whole*length < long; whole++ {
				if b := long - a - whole*length; b >= end && b <= length {
					name := m.variable(whole, "long%d_%d_%d", long, a, whole)
					ways = append(ways, name)
					made[a] = append(made[a], name)
					made[b] = append(made[b], name)
				}
			}
		}
		m.equal(ways, nil, rows[row])
	}
	for a := end; a <= length; a++ {
		used[a] = append(used[a], m.variable(1, "alone%d", a))
		for b := a; a+b+kerf <= length; b++ {
			name := m.variable(1, "pair%d_%d", a, b)
			used[a] = append(used[a], name)
			used[b] = append(used[b], name)
		}
	}
	for a := end; a <= length; a++ {
		m.equal(summed(made[a]), summed(used[a]), 0)
	}
	return m.String()
}

// summed writes a name that stands twice as one with a factor.
func summed(names []string) []string {
	var sum []string
	for _, name := range names {
		if n := len(sum); n > 0 && sum[n-1] == name {
			sum[n-1] = "2 " + name
			continue
		}
		sum = append(sum, name)
	}
	return sum
}

func sortedLengths(rows map[measure.Length]int) []measure.Length {
	return slices.Sorted(maps.Keys(rows))
}

// optimum solves a programme with CBC, or GLPK where that is not there.
func optimum(t *testing.T, model string) int {
	t.Helper()
	dir := t.TempDir()
	file, answer := filepath.Join(dir, "model.lp"), filepath.Join(dir, "answer.txt")
	if err := os.WriteFile(file, []byte(model), 0o600); err != nil {
		t.Fatal(err)
	}
	// Planks are whole: within less than one of the bound is the best.
	program, arguments := "cbc", []string{file, "allow", "0.99", "solve", "solution", answer}
	if _, err := exec.LookPath(program); err != nil {
		program, arguments = "glpsol", []string{"--lp", file, "-o", answer}
	}
	path := published.Program(t, program)
	if text, err := exec.Command(path, arguments...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", program, err, text)
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		t.Fatal(err)
	}
	match := regexp.MustCompile(`(?i)optimal[^\d]*(?:objective value|planks =)\s+([\d.]+)`).FindSubmatch(text)
	if match == nil {
		t.Fatalf("no optimum in the answer of %s:\n%.400s", program, text)
	}
	value, err := strconv.ParseFloat(string(match[1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return int(value + 0.5)
}

// rowsOf are the lengths of a plan's rows, each an unbroken chain of pieces.
func rowsOf(plan Plan) map[measure.Length]int {
	rows := map[measure.Length]int{}
	for i := range plan.Layouts {
		byRow := map[int]shape.Box{}
		for _, piece := range plan.Layouts[i].Pieces {
			box := piece.At.Bounds()
			if row, known := byRow[piece.Row]; known {
				box.X0, box.X1 = min(box.X0, row.X0), max(box.X1, row.X1)
			}
			byRow[piece.Row] = box
		}
		for _, box := range byRow {
			rows[box.X1-box.X0]++
		}
	}
	return rows
}

// Plans and bounds against the optimum of an integer programme that another
// program solves (CBC or GLPK): for the rows of the plan, without stagger, exact
// on the grid.
func TestAgainstIntegerProgrammes(t *testing.T) {
	plank := Plank{1200 * mm, 200 * mm}
	rules := Rules{Gap: 10 * mm, Kerf: 10 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm, LineUp: 50 * mm}
	r := rand.New(rand.NewPCG(14, 14))
	along := func(lo, hi int64) measure.Length { return measure.Length(lo+r.Int64N(hi-lo+1)) * coarse }
	// Rows as wide as the plank, so that none is ripped.
	rectangle := func() Room {
		x, rows := along(130, 600), measure.Length(3+r.IntN(10))
		return roomOf(shape.Rectangle(shape.Box{X1: x + 20*mm, Y1: rows*plank.Width + 20*mm}))
	}
	corner := func() Room {
		room := rectangle()
		box := room.Floor.Bounds()
		notch := shape.Box{X0: box.X1 - along(20, int64(box.X1/coarse)-40), Y0: box.Y1 - plank.Width*measure.Length(1+r.IntN(2)), X1: box.X1, Y1: box.Y1}
		return Room{Floor: shape.Subtract(room.Floor, notch)}
	}
	planks, best, proven := 0, 0, 0
	const pools = 16
	for i := range pools {
		rooms := []Room{rectangle()}
		switch i % 4 {
		case 1:
			rooms = []Room{corner()}
		case 2:
			rooms = append(rooms, rectangle(), corner())
		}
		of, model := rules, handedProgramme
		if i%4 == 3 {
			of.Ends, model = Free, freeProgramme
		}
		for k := range rooms {
			rooms[k].Directions = []shape.Angle{0}
		}
		p := poolOf(plank, of, rooms...)
		plan := mustLay(t, Lay, p)
		rows := rowsOf(plan)
		want := optimum(t, model(p, rows))
		if !agrees(plan, want) {
			t.Errorf("case %d, rows %v: %d planks, bounds %d and %d, proven %t, optimum %d", i, rows, plan.Planks, plan.LowerBound, plan.RowBound, plan.Proven, want)
		}
		planks, best = planks+plan.Planks, best+want
		if plan.Proven {
			proven++
		}
	}
	t.Logf("%d planks, optimum without stagger %d, %d of %d proven", planks, best, proven, pools)
}

// agrees tells whether a plan and its bounds can be right when so many planks are
// the least.
func agrees(plan Plan, least int) bool {
	return plan.LowerBound <= least && plan.RowBound <= least && plan.Planks >= least && (!plan.Proven || plan.Planks == least)
}

// The comparison must be able to fail: 16 rows of 2000 mm of planks of 1200 x 200
// mm take 27 planks by area, and a plan or a bound that is one off is seen.
func TestOptimumFindsPlantedFaults(t *testing.T) {
	rules := Rules{Gap: 10 * mm, Kerf: 10 * mm, LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm}
	p := poolOf(Plank{1200 * mm, 200 * mm}, rules, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 2020 * mm, Y1: 3220 * mm})}, Directions: []shape.Angle{0}})
	sound := mustLay(t, Lay, p)
	least := optimum(t, handedProgramme(p, rowsOf(sound)))
	if least < 27 || !agrees(sound, least) {
		t.Fatalf("%d planks, bounds %d and %d, optimum %d", sound.Planks, sound.LowerBound, sound.RowBound, least)
	}
	for name, plant := range map[string]func(*Plan){
		"bound over the optimum":         func(plan *Plan) { plan.LowerBound = least + 1 },
		"row bound over the optimum":     func(plan *Plan) { plan.RowBound = least + 1 },
		"a plank fewer than the optimum": func(plan *Plan) { plan.Planks = least - 1 },
		"proven with a plank more":       func(plan *Plan) { plan.Planks, plan.Proven = least+1, true },
	} {
		plan := sound
		plant(&plan)
		if agrees(plan, least) {
			t.Errorf("%s: not seen", name)
		}
	}
}
