package programme

import (
	"fmt"
	"testing"

	"laybill/estimate/job"
)

// BenchmarkThousandApartments plans 1,000 apartments on 50 floors with ten
// crews, with and without a limit to what a floor stores. days/bound says how
// near the programme is to the bound.
func BenchmarkThousandApartments(b *testing.B) {
	for _, storage := range []string{"0", "3000"} {
		s := newSite(10, 2, "7.5")
		s.job.Settings.FloorStorage = dec(storage)
		for n := range 1000 {
			a := s.apartment(fmt.Sprintf("%04d", n), 40+int64(n%7)*5, map[job.Step]string{job.MoistureTest: "1.2", job.Delivering: "2",
				job.Underlaying: "5", job.Laying: fmt.Sprint(14 + n%11), job.FixingTrims: "6", job.HandingOver: "2"})
			a.Floor = fmt.Sprint(n / 20)
		}
		b.Run("storage "+storage, func(b *testing.B) {
			for b.Loop() {
				p := s.plan()
				b.ReportMetric(float64(p.Days)/float64(p.BoundDays), "days/bound")
				b.ReportMetric(float64(len(p.Deliveries)), "deliveries")
			}
		})
	}
}
