package building

import (
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
)

// A room of 5 x 4 m = 20 m2 with one void, under every rule. Limits: ATV
// DIN 18365 0.10 m2, SMM7 0.50 m2 (measurement_deductions.csv); NRM2 1.00 m2
// and the deduction of voids at the walls under SMM7 and NRM2 from memory.
func TestBilledVoids(t *testing.T) {
	for _, row := range []struct {
		name                      string
		x, y, l, w                int64 // mm
		net                       string
		upTo010, upTo050, upTo100 string
	}{
		{"column of 0.09 m2", 2000, 2000, 300, 300, "19.91", "20", "20", "20"},
		{"column of exactly 0.10 m2", 2000, 2000, 400, 250, "19.9", "20", "20", "20"},
		{"column of 0.16 m2", 2000, 2000, 400, 400, "19.84", "19.84", "20", "20"},
		{"shaft of exactly 0.50 m2", 2000, 2000, 1000, 500, "19.5", "19.5", "20", "20"},
		{"shaft of 0.72 m2", 2000, 2000, 1200, 600, "19.28", "19.28", "19.28", "20"},
		{"stair of 1.20 m2", 2000, 2000, 1200, 1000, "18.8", "18.8", "18.8", "18.8"},
		{"pier of 0.08 m2 at the wall", 2000, 0, 400, 200, "19.92", "20", "19.92", "19.92"},
		{"half of it in the wall", 2000, -200, 400, 400, "19.92", "20", "19.92", "19.92"},
	} {
		j := &job.Job{
			Rooms: []*job.Room{{Type: "A", Name: "R", Outline: shape.Rectangle(shape.Box{X1: mm(5000), Y1: mm(4000)}), BuildUp: &job.BuildUp{},
				Fixtures: []job.Fixture{{Box: shape.Box{X0: mm(row.x), Y0: mm(row.y), X1: mm(row.x + row.l), Y1: mm(row.y + row.w)}}}}},
			Apartments: []*job.Apartment{{Type: "A"}, {Type: "A", Mirrored: true}},
		}
		for _, room := range Build(j).Rooms {
			for rule, want := range map[job.MeasuringRule]string{job.DeductAll: row.net, job.UpTo010: row.upTo010, job.UpTo050: row.upTo050, job.UpTo100: row.upTo100} {
				if got := room.Billed(rule).Decimal(measure.M2, 4).String(); got != want {
					t.Errorf("%s, %s: %s m2, want %s", row.name, rule, got, want)
				}
			}
		}
	}
}
