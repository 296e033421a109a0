package layout

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

var patterns = map[string]Pattern{"half": Half, "third": Third}

// patternFaults reads from the pieces alone where joints lie, and names those
// that are neither in pattern nor in a row named as out of it.
func patternFaults(p Pool, plan Plan) []string {
	var faults []string
	n := measure.Length(p.Rules.Pattern)
	for i := range plan.Layouts {
		l := &plan.Layouts[i]
		out := map[int]bool{}
		for _, s := range plan.Shortfalls {
			if s.Room == l.Room && s.Rule == RulePattern {
				out[s.Row] = true
			}
		}
		contactsOf(sidesOf(l, true), func(a, b side) {
			row := a.piece.Row
			// A joint's place times n, less the row's shift and whole planks.
			off := ((a.at-l.Phase)*n - p.Plank.Length*measure.Length(row-1)) % (p.Plank.Length * n)
			off = (off + p.Plank.Length*n) % (p.Plank.Length * n)
			off = min(off, p.Plank.Length*n-off)
			if off > n*mm/2 && !out[row] {
				faults = append(faults, fmt.Sprintf("%s: joint at %d in row %d is out of pattern", l.Room, a.at, row))
			}
		})
	}
	return faults
}

func TestPatternsAreValid(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 21))
	kinds := map[string]func(*rand.Rand) []Room{
		"rectangle": func(r *rand.Rand) []Room { return []Room{rectangleRoom(r)} },
		"corner":    func(r *rand.Rand) []Room { return []Room{cornerRoom(r)} },
		"columns":   func(r *rand.Rand) []Room { return []Room{columnRoom(r)} },
		"apartment": func(r *rand.Rand) []Room { return apartmentRooms(r)[:3] },
	}
	for pattern, of := range patterns {
		for name, rooms := range kinds {
			t.Run(pattern+" "+name, func(t *testing.T) {
				for i := range 8 {
					rules := trialRules
					rules.Pattern, rules.Ends = of, []Ends{Handed, Free}[i/4]
					p := poolOf(trialPlanks[i%4], rules, rooms(r)...)
					for name, lay := range map[string]method{"plan": Lay, "by eye": ByEye} {
						plan := mustLay(t, lay, p)
						report(t, p, plan)
						for _, fault := range patternFaults(p, plan) {
							t.Errorf("%s: %s", name, fault)
						}
					}
				}
			})
		}
	}
}

// The check above must find a row that is moved out of its pattern.
func TestPatternFaultIsFound(t *testing.T) {
	rules := trialRules
	rules.Pattern = Half
	p := poolOf(trialPlanks[0], rules, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 4000 * mm, Y1: 3000 * mm})}})
	plan := mustLay(t, Lay, p)
	if faults := patternFaults(p, plan); len(faults) > 0 {
		t.Fatal(faults)
	}
	moveJoint(&plan.Layouts[0], mm)
	if len(patternFaults(p, plan)) == 0 {
		t.Error("a joint moved by 1 mm was not noticed")
	}
}

// A floor by hand (common practice). Planks 1200 x 200 mm, no gap, no kerf, least
// end 300 mm, 3000 x 800 mm: 4 rows of two planks and a half.
//
// Half: rows of 1200 + 1200 + 600 and of 600 + 1200 + 1200, and the 600 that ends
// a row and the 600 that starts the next are one plank: 10 planks for 8 whole
// ones and 4 halves; the area is 10 planks, so no pattern does better.
//
// Third: starter and end piece of a row come to 600 or 1800, so that with 300 at
// least for each a starter is 300 or from 600 to 1200 long. Of three starters 400
// apart, less whole planks, the shortest is at most 400: they are 300, 700 and
// 1100, and the end pieces 300, 1100 and 700. Rows 1 to 4 start with 300, 700,
// 1100 and 300: 2 + 1 + 1 + 2 whole planks, and of the starters 300, 300, 700 and
// 1100 three go with the end pieces 700, 300 and 300, the last with none: 6 + 8 -
// 3 = 11 planks. With row 1 from 700 or from 1100 there are 5 whole planks and
// two pairs, 700 + 300 twice: 5 + 8 - 2 = 11 too.
func TestPatternsByHand(t *testing.T) {
	rules := Rules{LeastEnd: 300 * mm, LeastStagger: 300 * mm, LeastRow: 50 * mm, LineUp: 50 * mm}
	p := poolOf(Plank{1200 * mm, 200 * mm}, rules, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: 3000 * mm, Y1: 800 * mm})}, Directions: []shape.Angle{0}})
	p.Rules.Pattern = Half
	plan := mustLay(t, Lay, p)
	if plan.Planks != 10 || !plan.Proven || len(plan.Shortfalls) > 0 {
		t.Errorf("half: %d planks, proven %t, %v", plan.Planks, plan.Proven, plan.Shortfalls)
	}
	p.Rules.Pattern = Third
	plan = mustLay(t, Lay, p)
	if plan.Planks != 11 || !plan.Proven || len(plan.Shortfalls) > 0 {
		t.Errorf("third: %d planks, proven %t, %v", plan.Planks, plan.Proven, plan.Shortfalls)
	}
	// With a least end piece of 310 a starter is from 600 to 1200 long, and the row
	// of 300 must leave the pattern. As row 2, between 1100 and 700, it would have
	// nowhere to go with 300 to both joints, nor as row 3; so rows 1 and 4 leave, by
	// 300 each: row 1 starts with a whole plank beside 700, row 4 with 600 beside 1100.
	p.Rules.LeastEnd = 310 * mm
	plan = mustLay(t, Lay, p)
	if len(plan.Shortfalls) != 2 || plan.Shortfalls[0].Rule != RulePattern || plan.Shortfalls[0].Row != 1 || plan.Shortfalls[0].Found != 300*mm || plan.Shortfalls[1].Row != 4 {
		t.Errorf("third with ends of 310 mm: %v", plan.Shortfalls)
	}
	if got := Third.Shifts(Plank{1285 * mm, 192 * mm}); !slices.Equal(got, []measure.Length{0, 428 * mm, 857 * mm}) {
		t.Errorf("thirds of 1285 mm: %v", got)
	}
}

// patternRow is a row of a room drawn for the oracle.
type patternRow struct{ from, length measure.Length }

// fewestInPattern is the least number of planks of rows in a fixed pattern with
// handed ends, found by trying every phase of a step: the definition, by brute
// force. It is 0 when no phase keeps every end piece.
func fewestInPattern(p Plank, r Rules, rows []patternRow, step measure.Length) int {
	best := 0
	shifts := r.Pattern.Shifts(p)
	for phase := measure.Length(0); phase < p.Length; phase += step {
		var starters, ends []measure.Length
		planks, legal := 0, true
		for i, row := range rows {
			joint := (phase + shifts[i%len(shifts)] - row.from) % p.Length
			for joint <= 0 {
				joint += p.Length
			}
			end := row.length - joint
			for end > p.Length {
				end -= p.Length
				planks++
			}
			legal = legal && joint >= r.LeastEnd && end >= r.LeastEnd
			starters, ends = append(starters, joint), append(ends, end)
		}
		if !legal {
			continue
		}
		if n := planks + 2*len(rows) - mostPairs(starters, ends, p.Length-r.Kerf); best == 0 || n < best {
			best = n
		}
	}
	return best
}

// Single rooms against every phase and every width of first row: rectangles and
// rooms with a step in one wall, on a grid of 5 mm that holds every length that
// matters.
func TestPatternsAgainstEveryPhase(t *testing.T) {
	const grid = 5 * mm
	r := rand.New(rand.NewPCG(22, 22))
	length := func(lo, hi int64) measure.Length { return measure.Length(lo/5+r.Int64N((hi-lo)/5+1)) * grid }
	plank := Plank{1200 * mm, 100 * mm}
	compared := 0
	for i := range 60 {
		rules := Rules{Kerf: 5 * mm, LeastEnd: 200 * mm, LeastStagger: 200 * mm, LeastRow: 50 * mm, LineUp: 50 * mm, Pattern: []Pattern{Half, Third}[i%2]}
		x, y := length(2500, 4500), length(310, 700)
		step := shape.Box{X0: x, Y0: y, X1: x, Y1: y}
		floor := shape.Region{shape.Rectangle(shape.Box{X1: x, Y1: y})}
		if i%4 > 1 {
			step = shape.Box{X0: length(1250, int64(x/mm)-5), Y0: length(100, int64(y/mm)-105), X1: x, Y1: y}
			floor = shape.Subtract(floor, step)
		}
		want := 0
		for first := 50 * mm; first <= plank.Width; first += grid {
			var rows []patternRow
			last := measure.Length(0)
			for from, to := measure.Length(0), first; from < y; from, to = to, to+plank.Width {
				last = min(to, y) - from
				row := patternRow{length: x}
				if from >= step.Y0 {
					row.length = step.X0
				}
				rows = append(rows, row)
			}
			if last < rules.LeastRow || first+last+rules.Kerf <= plank.Width {
				continue // such rows may be ripped from one plank
			}
			if n := fewestInPattern(plank, rules, rows, grid/2); n > 0 && (want == 0 || n < want) {
				want = n
			}
		}
		p := poolOf(plank, rules, Room{Floor: floor, Directions: []shape.Angle{0}})
		plan := mustLay(t, Lay, p)
		report(t, p, plan)
		out := slices.ContainsFunc(plan.Shortfalls, func(s Shortfall) bool { return s.Rule == RulePattern })
		switch {
		case (want == 0) != out:
			t.Errorf("room %d: best of every phase %d, plan out of pattern %t", i, want, out)
		case out:
		case plan.Planks > want || plan.InPattern > want:
			t.Errorf("room %d: %d planks, bound %d, best of every phase %d", i, plan.Planks, plan.InPattern, want)
		default:
			compared++
		}
	}
	if compared < 30 {
		t.Errorf("only %d rooms could be compared", compared)
	}
}

// Two rooms that share off-cuts against every two phases.
func TestSharedPatternsAgainstEveryPhase(t *testing.T) {
	const grid = 20 * mm
	r := rand.New(rand.NewPCG(23, 23))
	plank := Plank{1200 * mm, 100 * mm}
	planks, best := 0, 0
	for i := range 12 {
		rules := Rules{Kerf: 20 * mm, LeastEnd: 200 * mm, LeastStagger: 200 * mm, LeastRow: 100 * mm, Pattern: []Pattern{Half, Third}[i%2]}
		var rooms []Room
		var lengths []measure.Length
		for range 2 {
			x := measure.Length(65+r.Int64N(120)) * grid
			lengths = append(lengths, x)
			rooms = append(rooms, Room{Floor: shape.Region{shape.Rectangle(shape.Box{X1: x, Y1: 600 * mm})}, Directions: []shape.Angle{0}})
		}
		want := fewestOfTwo(plank, rules, lengths, 6, grid)
		if want == 0 {
			continue
		}
		p := poolOf(plank, rules, rooms...)
		plan := mustLay(t, Lay, p)
		report(t, p, plan)
		if plan.LowerBound > want {
			t.Errorf("pool %d: bound %d, best of every phase %d", i, plan.LowerBound, want)
		}
		planks, best = planks+plan.Planks, best+want
	}
	t.Logf("%d planks, best of every two phases %d", planks, best)
	if planks > best {
		t.Errorf("%d planks, best of every two phases %d", planks, best)
	}
}

// fewestOfTwo is fewestInPattern of two rooms that share planks.
func fewestOfTwo(p Plank, r Rules, lengths []measure.Length, rows int, step measure.Length) int {
	type laid struct {
		starters, ends []measure.Length
		whole          int
	}
	shifts := r.Pattern.Shifts(p)
	ways := make([][]laid, len(lengths))
	for i, length := range lengths {
		for phase := measure.Length(0); phase < p.Length; phase += step {
			way, legal := laid{}, true
			for row := range rows {
				joint := (phase+shifts[row%len(shifts)]-1)%p.Length + 1
				end := length - joint
				for end > p.Length {
					end -= p.Length
					way.whole++
				}
				legal = legal && joint >= r.LeastEnd && end >= r.LeastEnd
				way.starters, way.ends = append(way.starters, joint), append(way.ends, end)
			}
			if legal {
				ways[i] = append(ways[i], way)
			}
		}
	}
	best := 0
	for _, a := range ways[0] {
		for _, b := range ways[1] {
			pairs := mostPairs(slices.Concat(a.starters, b.starters), slices.Concat(a.ends, b.ends), p.Length-r.Kerf)
			if n := a.whole + b.whole + 4*rows - pairs; best == 0 || n < best {
				best = n
			}
		}
	}
	return best
}
