package job

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/problem"
)

var one, hundred = decimal.New(1, 0), decimal.New(100, 0)

// checkSettings checks the Job sheet against itself.
func checkSettings(j *Job) []Finding {
	s := &j.Settings
	var found []Finding
	if s.PackRounding < s.Sharing {
		found = append(found, Finding{Cells: settingCells("packrounding", "sharing"), Problem: problem.Problem{Code: problem.PackRoundingFiner,
			Found: fmt.Sprintf("packs rounded for each %s, off-cuts shared within the %s", s.PackRounding, s.Sharing),
			Want:  fmt.Sprintf("pack rounding by %s or wider", s.Sharing), Fix: fmt.Sprintf("set Pack rounding to %s, or Off-cut sharing to %s", s.Sharing, s.PackRounding)}})
	}
	found = append(found, checkMargins(s)...)
	found = append(found, checkRates(s)...)
	return append(found, checkCrews(s)...)
}

// checkMargins refuses margins that leave nothing of the price for the cost.
func checkMargins(s *Settings) []Finding {
	var found []Finding
	if s.ProfitBasis == OnPrice && s.ProfitPercent.Cmp(hundred) >= 0 {
		found = append(found, Finding{Cells: settingCells("profit", "profitbasis"), Problem: problem.Problem{Code: problem.ValueOutOfRange,
			Found: fmt.Sprintf("a profit of %s %% of the price", s.ProfitPercent), Want: "under 100 % when the basis is the price", Fix: "correct the profit, or set Profit basis to on cost"}})
	}
	for _, below := range []struct {
		key, name string
		percent   decimal.Decimal
	}{{"riskfewer", "fewer hours", s.Risk.FewerHours}, {"risktarget", "a target margin", s.Risk.TargetMargin}} {
		if below.percent.Cmp(hundred) >= 0 {
			found = append(found, Finding{Cells: settingCells(below.key), Problem: problem.Problem{Code: problem.ValueOutOfRange,
				Found: fmt.Sprintf("%s of %s %%", below.name, below.percent), Want: "under 100 %", Fix: "correct the per cent"}})
		}
	}
	return found
}

// NoPrice is why no price can be made of a cost by the settings, for jobs that
// did not come from a workbook.
func (s *Settings) NoPrice() problem.List {
	var list problem.List
	for _, finding := range checkMargins(s) {
		list.Add(finding.Problem)
	}
	return list
}

// checkRates doubts percentages that are rarely meant.
func checkRates(s *Settings) []Finding {
	var found []Finding
	for _, rate := range []struct {
		key, name string
		percent   decimal.Decimal
		usual     int64 // common practice: rates of estimates stay below
	}{
		{"tax", "Tax %", s.TaxPercent, 50}, {"breakage", "Breakage %", s.BreakagePercent, 25}, {"attic", "Attic stock %", s.AtticPercent, 25},
		{"materialcontingency", "Material contingency %", s.MaterialContingency, 50}, {"labourcontingency", "Labour contingency %", s.LabourContingency, 50},
		{"othercontingency", "Other contingency %", s.OtherContingency, 50}, {"overhead", "Overhead %", s.OverheadPercent, 100}, {"retention", "Retention %", s.RetentionPercent, 25},
	} {
		if rate.percent.Cmp(decimal.New(rate.usual, 0)) > 0 {
			found = append(found, Finding{Cells: settingCells(rate.key), Problem: problem.Problem{Code: problem.RateDoubtful,
				Found: fmt.Sprintf("%s of %s", rate.name, rate.percent), Want: fmt.Sprintf("usually at most %d %%", rate.usual), Fix: "check the percentage"}})
		}
	}
	return found
}

// leastLearning is the per cent at which the n-th apartment takes an n-th of the
// hours. Work by hand learns at 80 to 95 (from memory).
var leastLearning = decimal.New(50, 0)

func checkCrews(s *Settings) []Finding {
	var found []Finding
	wrong := func(key, text, want string) {
		found = append(found, Finding{Cells: settingCells(key), Problem: problem.Problem{Code: problem.ValueOutOfRange, Found: text, Want: want, Fix: "correct the number"}})
	}
	if s.Crews < 1 {
		wrong("crews", fmt.Sprintf("%d crews", s.Crews), "at least 1 crew")
	}
	if s.CrewSize < 1 {
		wrong("crewsize", fmt.Sprintf("a crew of %d", s.CrewSize), "at least 1 worker")
	}
	if s.HoursADay.Sign() <= 0 || s.HoursADay.Cmp(decimal.New(24, 0)) > 0 {
		wrong("hoursaday", fmt.Sprintf("%s hours a day", s.HoursADay), "more than 0 and at most 24 hours")
	}
	if s.LearningPercent.Cmp(leastLearning) < 0 || s.LearningPercent.Cmp(hundred) > 0 {
		wrong("learning", fmt.Sprintf("a learning per cent of %s", s.LearningPercent), "from 50, each apartment in its number's part of the hours, to 100, none faster")
	}
	if s.BuildingYear != 0 && (s.BuildingYear < 1000 || s.BuildingYear > 2200) {
		wrong("buildingyear", fmt.Sprintf("the year %d", s.BuildingYear), "a year such as 1974")
	}
	if s.DoorWidth <= 0 {
		wrong("doorwidth", s.DoorWidth.String(), "a width above 0")
	}
	return found
}

// checkSuppliers checks the delivery terms.
func checkSuppliers(j *Job) []Finding {
	var found []Finding
	for _, s := range j.Suppliers {
		if n := len(s.Country); n != 0 && n != 2 {
			found = append(found, Finding{Cells: cells(s.Ref, "country"), Problem: problem.Problem{Code: problem.ValueOutOfRange,
				Found: fmt.Sprintf("%q", s.Country), Want: "a code of two letters (ISO 3166), such as DE", Fix: "write the country's code"}})
		}
	}
	return found
}
