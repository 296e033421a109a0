package programme

import (
	"fmt"
	"math/big"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/measure"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
	"laybill/estimate/subfloor"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func date(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return t
}

// site is a job in the making: apartments of one room each, with hours by step
// and goods.
type site struct {
	job   *job.Job
	rooms []*building.Room
	lines []labour.Line
	uses  []quantity.Use
	needs []purchase.Need

	consignments []int // by room; nil: one
}

// newSite starts on Monday, 2027-01-11.
func newSite(crews, size int, hoursADay string) *site {
	return &site{job: &job.Job{Settings: job.Settings{PackRounding: job.LevelJob, StartDate: date("2027-01-11"), Crews: crews, CrewSize: size, HoursADay: dec(hoursADay)}}}
}

var supplier = &job.Supplier{Code: "S"}

// oak is a plank that lies in its rooms for 48 hours; nothing else is bought.
var oak = &job.Product{Code: "OAK", Kind: job.Plank, Supplier: supplier, OrderStep: dec("1"), Weight: dec("10"), LeadDays: 5, Acclimatise: 48}

// apartment adds an apartment whose steps take so many man-hours and that needs
// so many packs of oak.
func (s *site) apartment(name string, packs int64, hours map[job.Step]string) *job.Apartment {
	a := &job.Apartment{Name: name}
	buildUp := &job.BuildUp{Lines: []*job.Line{{Product: oak}}}
	s.room(a, buildUp, hours)
	if packs > 0 {
		s.uses = append(s.uses, quantity.Use{Product: oak, Room: s.rooms[len(s.rooms)-1], Amount: packs})
		s.needs = []purchase.Need{{Product: oak, Sold: new(big.Rat)}}
		for _, use := range s.uses {
			s.needs[0].Sold.Add(s.needs[0].Sold, big.NewRat(use.Amount, 1))
		}
	}
	return a
}

func (s *site) room(a *job.Apartment, b *job.BuildUp, hours map[job.Step]string) {
	s.job.Apartments = append(s.job.Apartments, a)
	s.rooms = append(s.rooms, &building.Room{Index: len(s.rooms), Apartment: a, Spec: &job.Room{BuildUp: b}})
	for _, step := range job.WorkSteps {
		if hours[step] != "" {
			s.lines = append(s.lines, labour.Line{Apartment: a, Operation: &job.Operation{Step: step}, Hours: dec(hours[step])})
		}
	}
}

func (s *site) work() Work {
	if s.consignments == nil {
		s.consignments = make([]int, len(s.rooms))
	}
	survey := &subfloor.Survey{}
	for _, room := range s.rooms {
		survey.Rooms = append(survey.Rooms, subfloor.Room{Room: room})
	}
	return Work{Places: s.rooms, Subfloor: survey, Consignments: s.consignments, Labour: s.lines, Uses: s.uses, Needs: s.needs}
}

func (s *site) plan() Programme { return Plan(s.job, s.work()) }

func (e Entry) words() string {
	name := ""
	if e.Apartment != nil {
		name = e.Apartment.Name
	}
	return fmt.Sprintf("%s %s: crew %d, %s h, %s+%d to %s+%d", name, e.Step, e.Crew, e.Hours, e.Start.Day, e.Start.Worked, e.End.Day, e.End.Worked)
}

func wantEntries(t *testing.T, p Programme, want ...string) {
	t.Helper()
	for i, e := range p.Entries {
		if i >= len(want) || e.words() != want[i] {
			t.Errorf("entry %d: %s", i, e.words())
		}
	}
	if len(p.Entries) != len(want) {
		t.Errorf("%d entries, want %d", len(p.Entries), len(want))
	}
}

// NAVEDTRA 14045 Builder Advanced, chapter 2: 70 man-days of 8 hours, a crew of
// 12, availability 0.75, man-day equivalent 0.9375: 8.296, so 9 workdays. 8 x
// 0.75 x 0.9375 = 5.625 hours a day. From Monday on they are 9 days in a week of
// five: the 21st.
func TestDurationOfTheHandbook(t *testing.T) {
	s := newSite(1, 12, "5.625")
	s.lines = nil
	s.room(&job.Apartment{Name: "1"}, &job.BuildUp{}, map[job.Step]string{job.MoistureTest: "560"})
	p := s.plan()
	if p.Days != 9 || p.Finish.String() != "2027-01-21" || p.BoundDays != 9 {
		t.Errorf("%d days until %s, at least %d", p.Days, p.Finish, p.BoundDays)
	}
	if days := labour.Days(dec("560"), 1, 12, dec("5.625")); int(days) != p.Days {
		t.Errorf("the rule says %d days", days)
	}
}

// One apartment, a crew of two who work 8 h: 16 man-hours a day. The test takes
// 4 man-hours on Monday morning, is read 24 hours later; carrying in takes 2, 48
// hours pass until Thursday; film 6, planks 20 and trims 4 man-hours are 30,
// from Thursday 6 (a hundredth: 600) on: 10 on Thursday, 16 on Friday, 4 on
// Monday; handing over 1.
func TestOneApartmentByHand(t *testing.T) {
	s := newSite(1, 2, "8")
	s.apartment("1", 3, map[job.Step]string{job.MoistureTest: "4", job.Delivering: "2", job.Underlaying: "6", job.Laying: "20", job.FixingTrims: "4", job.HandingOver: "1"})
	p := s.plan()
	wantEntries(t, p,
		"1 moisture test: crew 1, 4 h, 2027-01-11+0 to 2027-01-11+400",
		"1 hold point: crew 0, 24 h, 2027-01-11+400 to 2027-01-12+400",
		"1 delivery: crew 1, 2 h, 2027-01-12+400 to 2027-01-12+600",
		"1 acclimatisation: crew 0, 48 h, 2027-01-12+600 to 2027-01-14+600",
		"1 film and underlay: crew 1, 6 h, 2027-01-14+600 to 2027-01-14+1200",
		"1 laying: crew 1, 20 h, 2027-01-14+1200 to 2027-01-15+1600",
		"1 trims: crew 1, 4 h, 2027-01-18+0 to 2027-01-18+400",
		"1 snag and handover: crew 1, 1 h, 2027-01-18+400 to 2027-01-18+500",
	)
	// Five working days before Tuesday the 12th is Tuesday the 5th.
	d := p.Deliveries[0]
	if d.Day.String() != "2027-01-12" || d.OrderBy.String() != "2027-01-05" || d.Weight().String() != "30" || d.Supplies[0].Until.String() != "2027-01-18" {
		t.Errorf("delivery %+v", d)
	}
	if p.Finish != p.Bound || p.Days != 6 {
		t.Errorf("%d days until %s, at least until %s", p.Days, p.Finish, p.Bound)
	}
}

// Holidays and days off push work on, drying goes on through them. 5 mm of
// compound dry three days: one up to 3 mm and one for each further (common
// practice; the data sheet of the bag rules).
func TestHolidaysAndDrying(t *testing.T) {
	s := newSite(1, 1, "8")
	s.job.Holidays = []*job.Holiday{{Date: date("2027-01-11")}, {Date: date("2027-01-14")}}
	level := &job.Line{Operation: &job.Operation{Step: job.Levelling}, Measure: job.AreaDepth}
	s.room(&job.Apartment{Name: "1"}, &job.BuildUp{Lines: []*job.Line{level}}, map[job.Step]string{job.Levelling: "8", job.Laying: "8"})
	s.rooms[0].Spec.LevelBy = 5 * measure.Millimetre
	wantEntries(t, s.plan(), // Tuesday; read on Wednesday; Thursday is a holiday
		"1 hold point: crew 0, 24 h, 2027-01-12+0 to 2027-01-13+0",
		"1 levelling: crew 1, 8 h, 2027-01-13+0 to 2027-01-13+800",
		"1 drying: crew 0, 72 h, 2027-01-13+800 to 2027-01-16+800",
		"1 laying: crew 1, 8 h, 2027-01-18+0 to 2027-01-18+800",
	)
}

// A wood subfloor is read with a meter at once: no hold point.
func TestWoodSubfloorIsReadAtOnce(t *testing.T) {
	s := newSite(1, 1, "8")
	s.room(&job.Apartment{Name: "1"}, &job.BuildUp{}, map[job.Step]string{job.MoistureTest: "2", job.Laying: "8"})
	s.rooms[0].Spec.Subfloor = job.WoodSubfloor
	wantEntries(t, s.plan(),
		"1 moisture test: crew 1, 2 h, 2027-01-11+0 to 2027-01-11+200",
		"1 laying: crew 1, 8 h, 2027-01-11+200 to 2027-01-12+200",
	)
}

// Two apartments of 1,500 kg on a floor that stores 2,000: the second delivery
// waits until the first floor is laid, and the goods of one supplier do not come
// together. With 3,000 kg they do.
func TestFloorStorage(t *testing.T) {
	for _, row := range []struct {
		limit string
		days  []string
	}{
		{"2000", []string{"2027-01-12", "2027-01-18"}},
		{"3000", []string{"2027-01-12"}},
		{"0", []string{"2027-01-12"}},
	} {
		s := newSite(2, 1, "8")
		s.job.Settings.FloorStorage = dec(row.limit)
		// Test on Monday, goods on Tuesday, laying from Thursday morning on for
		// two days: until Friday evening.
		for _, name := range []string{"1", "2"} {
			s.apartment(name, 150, map[job.Step]string{job.Laying: "16"})
		}
		p := s.plan()
		var days []string
		for _, d := range p.Deliveries {
			days = append(days, d.Day.String())
		}
		if fmt.Sprint(days) != fmt.Sprint(row.days) {
			t.Errorf("limit %s kg: deliveries on %v, want %v", row.limit, days, row.days)
		}
	}
}

// A crew that is never idle carries the goods of the next apartment in between
// two layings of four days each: none lie longer than one of them takes, and the
// 48 hours besides.
func TestGoodsComeShortlyBefore(t *testing.T) {
	s := newSite(1, 1, "8")
	for n := range 8 {
		s.apartment(fmt.Sprint(n), 10, map[job.Step]string{job.MoistureTest: "1", job.Delivering: "2", job.Laying: "32"})
	}
	p := s.plan()
	carried := map[*job.Apartment]Day{}
	for _, e := range p.Entries {
		switch e.Step {
		case job.Delivering:
			carried[e.Apartment] = e.Start.Day
		case job.Laying:
			if lain := e.Start.Day - carried[e.Apartment]; lain > 2+4+2 { // a weekend in between
				t.Errorf("the goods of %s lie for %d days", e.Apartment.Name, lain)
			}
		}
	}
	if p.Days > p.BoundDays+1 {
		t.Errorf("%d days, at least %d", p.Days, p.BoundDays)
	}
}

// Whole packs of a job's need, one after another as they are needed: 2.5 packs
// each are 3 and 2 for the second.
func TestPacksGoRound(t *testing.T) {
	s := newSite(1, 1, "8")
	for _, name := range []string{"1", "2", "3"} {
		s.apartment(name, 10, map[job.Step]string{job.Laying: "8"})
	}
	s.needs[0].Sold = big.NewRat(15, 2)
	var got []string
	for _, d := range s.plan().Deliveries {
		for _, supply := range d.Supplies {
			got = append(got, supply.Apartment.Name+": "+supply.Needed.String()+" "+supply.Bring.String())
		}
	}
	if want := "[1: 2.5 3 2: 2.5 2 3: 2.5 3]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
}

// A job without dates has its deliveries, without days.
func TestNoDates(t *testing.T) {
	s := newSite(1, 1, "8")
	s.job.Settings.StartDate = time.Time{}
	s.apartment("1", 10, map[job.Step]string{job.Laying: "8"})
	p := s.plan()
	if p.Dated() || len(p.Deliveries) != 1 || p.Deliveries[0].Day != NoDay || !p.Deliveries[0].Day.Date().IsZero() {
		t.Errorf("%+v", p)
	}
}

// Apartments are asked for by start, own or of their phase, then by phase, block,
// floor and name, in which 9 comes before 10.
func TestAskedOrder(t *testing.T) {
	s := newSite(1, 1, "8")
	for _, a := range []job.Apartment{
		{Name: "10", Floor: "1"}, {Name: "9", Floor: "1"}, {Name: "8", Floor: "10"}, {Name: "7", Floor: "9"},
		{Name: "late", Phase: "2"}, {Name: "first of phase", Phase: "2", Start: date("2027-02-01")}, {Name: "own", Start: date("2027-01-20")},
	} {
		s.room(&a, &job.BuildUp{}, map[job.Step]string{job.Laying: "1"})
	}
	var got []string
	for _, c := range apartmentChains(s.job, s.work()) {
		got = append(got, c.apartment.Name)
	}
	if want := "[9 10 7 8 own first of phase late]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
}
