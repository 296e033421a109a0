package blocks

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// goals sums up plans of one line of the table.
type goals struct {
	blocks, row, bound, eye, pairs int
	rooms, fewest                  int
	took, slowest                  time.Duration
	area                           measure.Area
}

func (g *goals) add(t testing.TB, style Style, rooms ...shape.Region) {
	p := poolOf(rooms...)
	start := time.Now()
	plan := mustLay(t, style, p)
	took := time.Since(start)
	g.took, g.slowest = g.took+took, max(g.slowest, took)
	g.blocks, g.row, g.bound, g.eye = g.blocks+plan.Planks, g.row+plan.RowBound, g.bound+plan.LowerBound, g.eye+plan.ByEye
	g.pairs += 2 * max(plan.Lefts, plan.Rights)
	g.rooms++
	if plan.Planks == plan.RowBound {
		g.fewest++
	}
	for i := range plan.Layouts {
		g.area += plan.Layouts[i].Area()
	}
}

func (g *goals) String() string {
	waste := func(blocks int) float64 {
		return 100 * (float64(blocks)*float64(trialBlock.Length.Times(trialBlock.Width))/float64(g.area) - 1)
	}
	return fmt.Sprintf("waste %4.1f %%, bought in pairs %4.1f %% (by eye %4.1f %%)  plan/eye %.3f  plan/bound of its begin %.4f, met in %3.0f %%  plan/area %.3f  %5.1f ms each, slowest %.0f",
		waste(g.blocks), waste(g.pairs), waste(g.eye), float64(g.blocks)/float64(g.eye), float64(g.blocks)/float64(g.row), 100*float64(g.fewest)/float64(g.rooms),
		float64(g.blocks)/float64(g.bound), float64(g.took.Microseconds())/1000/float64(g.rooms), float64(g.slowest.Microseconds())/1000)
}

// BenchmarkGoals prints how good and how quick plans are on the seeded rooms of
// the plank trial, for blocks of 600 x 100 mm.
func BenchmarkGoals(b *testing.B) {
	for _, style := range styles {
		for _, kind := range []struct {
			name  string
			rooms func(*rand.Rand) []shape.Region
			count int
		}{
			{"rectangle", func(r *rand.Rand) []shape.Region { return []shape.Region{rectangleRoom(r)} }, 40},
			{"corner", func(r *rand.Rand) []shape.Region { return []shape.Region{cornerRoom(r)} }, 40},
			{"apartment", func(r *rand.Rand) []shape.Region {
				rooms := make([]shape.Region, 5)
				for i := range rooms {
					if rooms[i] = rectangleRoom(r); r.IntN(5) < 2 {
						rooms[i] = cornerRoom(r)
					}
				}
				return rooms
			}, 10},
		} {
			b.Run(style.String()+" "+kind.name, func(b *testing.B) {
				r := rand.New(rand.NewPCG(11, 0))
				var g goals
				for range kind.count {
					g.add(b, style, kind.rooms(r)...)
				}
				b.Log(g.String())
			})
		}
	}
}
