package programme

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
)

// drawSite is a random job of up to seven apartments on up to three floors.
func drawSite(t *rapid.T) *site {
	whole := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
	s := newSite(whole("crews", 1, 3), whole("size", 1, 3), rapid.SampledFrom([]string{"7.5", "8", "3.33"}).Draw(t, "hours a day"))
	s.job.Settings.WorkingWeek = job.WorkingWeek(whole("week", 0, len(job.WorkingWeeks)-1))
	s.job.Settings.FloorStorage = dec(fmt.Sprint(whole("storage", 0, 3) * 400))
	s.job.Settings.PackRounding = rapid.SampledFrom(job.SharingLevels).Draw(t, "pack rounding")
	for range whole("holidays", 0, 4) {
		s.job.Holidays = append(s.job.Holidays, &job.Holiday{Date: s.job.Settings.StartDate.AddDate(0, 0, whole("holiday", 0, 20))})
	}
	level := &job.Operation{Step: job.Levelling}
	compound := &job.Product{Code: "COMP", Kind: job.Compound, Supplier: supplier, OrderStep: dec("1"), Weight: dec("25")}
	for n := range whole("apartments", 1, 7) {
		hours := map[job.Step]string{}
		for _, step := range job.WorkSteps {
			if rapid.Bool().Draw(t, "worked") {
				hours[step] = fmt.Sprintf("%d.%02d", whole("hours", 0, 30), whole("hundredths", 0, 99))
			}
		}
		a := &job.Apartment{Name: fmt.Sprint(n), Floor: fmt.Sprint(whole("floor", 1, 3)), Phase: fmt.Sprint(whole("phase", 1, 2))}
		if rapid.Bool().Draw(t, "starts") {
			a.Start = s.job.Settings.StartDate.AddDate(0, 0, whole("start", 0, 25))
		}
		s.room(a, &job.BuildUp{Lines: []*job.Line{{Product: compound, Measure: job.AreaDepth}, {Operation: level}, {Product: oak}}}, hours)
		room := s.rooms[n]
		room.Spec.LevelBy = measure.Length(whole("depth", 0, 9)) * measure.Millimetre
		s.consignments = append(s.consignments, whole("consignment", 0, 1))
		for _, product := range []*job.Product{compound, oak} {
			if packs := int64(whole("packs", 0, 60)); packs > 0 {
				s.uses = append(s.uses, quantity.Use{Product: product, Room: room, Amount: packs})
			}
		}
	}
	s.addNeeds()
	return s
}

// addNeeds needs seven tenths of a pack for every one that is used, in two
// consignments.
func (s *site) addNeeds() {
	at := map[needOf]int{}
	for _, use := range s.uses {
		key := needOf{product: use.Product, place: use.Room.Place(s.job.Settings.PackRounding)}
		n, known := at[key]
		if !known {
			n = len(s.needs)
			at[key] = n
			s.needs = append(s.needs, purchase.Need{Product: key.product, Place: key.place, Sold: new(big.Rat), By: []*big.Rat{{}, {}}})
		}
		need, sold := &s.needs[n], big.NewRat(7*use.Amount, 10)
		need.Sold.Add(need.Sold, sold)
		by := need.By[s.consignments[use.Room.Index]]
		by.Add(by, sold)
	}
}

// worked counts the hundredths of a man-hour from one point to another, day by
// day.
func worked(c Calendar, aDay int64, from, to Point) int64 {
	total := to.Worked - from.Worked
	for d := from.Day; d < to.Day; d++ {
		if c.Worked(d) {
			total += aDay
		}
	}
	return total
}

func (p Point) before(q Point) bool {
	return p.Day < q.Day || p.Day == q.Day && p.Worked < q.Worked
}

func TestProgrammeKeepsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t)
		p := s.plan()
		calendar := NewCalendar(s.job)
		aDay := s.job.Settings.HoursADay.Shift(2).IntPart() * int64(s.job.Settings.CrewSize)
		byCrew, last := map[int][]Entry{}, map[*job.Apartment]Entry{}
		for _, e := range p.Entries {
			if e.Crew > 0 {
				byCrew[e.Crew] = append(byCrew[e.Crew], e)
				if !calendar.Worked(e.Start.Day) || !calendar.Worked(e.End.Day) {
					t.Fatalf("on a day off: %s", e.words())
				}
				if got := worked(calendar, aDay, e.Start, e.End); got != e.Hours.Shift(2).IntPart() {
					t.Fatalf("%d hundredths: %s", got, e.words())
				}
			}
			if e.Step == job.HoldPoint || e.Step == job.Drying || e.Step == job.Acclimatisation {
				if elapsed := int64(e.End.Day-e.Start.Day) * 24; e.End.Worked < e.Start.Worked || elapsed < e.Hours.IntPart() {
					t.Fatalf("too short: %s", e.words())
				}
			}
			before, known := last[e.Apartment]
			if known && (before.Step >= e.Step || e.Start.before(before.End)) {
				t.Fatalf("%s before %s", before.words(), e.words())
			}
			if !known && e.Apartment != nil && !e.Apartment.Start.IsZero() && e.Start.Day < DayOf(e.Apartment.Start) {
				t.Fatalf("before its start date: %s", e.words())
			}
			last[e.Apartment] = e
		}
		for crew, entries := range byCrew {
			if crew > s.job.Settings.Crews {
				t.Fatalf("crew %d", crew)
			}
			slices.SortFunc(entries, func(a, b Entry) int {
				if a.Start.before(b.Start) {
					return -1
				}
				return 1
			})
			for i := 1; i < len(entries); i++ {
				if entries[i].Start.before(entries[i-1].End) {
					t.Fatalf("in two places: %s and %s", entries[i-1].words(), entries[i].words())
				}
			}
		}
		if p.Dated() && p.Finish < p.Bound {
			t.Fatalf("finished on %s, before the bound %s", p.Finish, p.Bound)
		}
		storageHolds(t, s, p)
		needsAreMet(t, s, p)
	})
}

// storageHolds adds up the goods on every floor day by day.
func storageHolds(t *rapid.T, s *site, p Programme) {
	limit := s.job.Settings.FloorStorage
	if limit.IsZero() {
		return
	}
	type goods struct {
		kg    int64
		names map[string]bool
	}
	stored := map[string]*goods{}
	for _, d := range p.Deliveries {
		for _, supply := range d.Supplies {
			if supply.By < d.Day || supply.Until < supply.By {
				t.Fatalf("%s on %s for %s until %s", supply.Product.Code, d.Day, supply.By, supply.Until)
			}
			for day := d.Day; day <= supply.Until; day++ {
				key := d.Floor + " " + day.String()
				if stored[key] == nil {
					stored[key] = &goods{names: map[string]bool{}}
				}
				stored[key].kg += supply.Weight().IntPart()
				stored[key].names[supply.Apartment.Name] = true
			}
		}
	}
	for key, g := range stored {
		if g.kg > limit.IntPart() && len(g.names) > 1 {
			t.Fatalf("%d kg on floor %s for %v", g.kg, key, g.names)
		}
	}
}

// needsAreMet: each consignment brings in all what its places open.
func needsAreMet(t *rapid.T, s *site, p Programme) {
	type of struct {
		code        string
		consignment int
	}
	brought, opened := map[of]int64{}, map[of]int64{}
	for _, d := range p.Deliveries {
		for _, supply := range d.Supplies {
			brought[of{supply.Product.Code, d.Consignment}] += supply.Bring.IntPart()
		}
	}
	for _, need := range s.needs {
		for i, amount := range need.Opened() {
			if amount.Sign() > 0 {
				opened[of{need.Product.Code, i}] += amount.IntPart()
			}
		}
	}
	if diff := cmp.Diff(opened, brought, cmp.AllowUnexported(of{})); diff != "" {
		t.Fatalf("opened (-) and brought (+) by consignment:\n%s", diff)
	}
}

// Elapsed days count back as they count forth: until is the last moment whose
// after is not beyond.
func TestClockCountsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newSite(1, 1, "8")
		s.job.Settings.WorkingWeek = job.WorkingWeek(rapid.IntRange(0, len(job.WorkingWeeks)-1).Draw(t, "week"))
		for range rapid.IntRange(0, 4).Draw(t, "holidays") {
			s.job.Holidays = append(s.job.Holidays, &job.Holiday{Date: s.job.Settings.StartDate.AddDate(0, 0, rapid.IntRange(0, 20).Draw(t, "holiday"))})
		}
		c := newClock(NewCalendar(s.job), DayOf(s.job.Settings.StartDate), 4)
		days := rapid.IntRange(0, 5).Draw(t, "days")
		work := moment(rapid.IntRange(0, 1).Draw(t, "work"))
		m := moment(rapid.IntRange(40, 60).Draw(t, "moment"))
		got := c.until(m, work, days)
		if c.after(got, work, days) > m {
			t.Fatalf("until %d is after it", got)
		}
		if work > 0 && c.after(got+1, work, days) <= m {
			t.Fatalf("%d may end later than %d", m, got)
		}
	})
}
