package in

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/sheet/book"
	"laybill/sheet/table"
)

// settings is the Job sheet with each row under its setting.
type settings struct {
	*reader
	byKey map[string]row
	units map[string]headingUnit // units in the settings' names: Default kerf (mm)

	subfloor job.Subfloor // of rooms that do not name their own
}

// readSettings reads the Job sheet. The units and the currency come first:
// every other cell depends on them.
func (r *reader) readSettings() {
	s := &settings{reader: r, byKey: map[string]row{}, units: map[string]headingUnit{}}
	r.settings = s
	r.each("job", s.take)
	for i := range table.Settings {
		if setting := &table.Settings[i]; setting.Required {
			s.require(setting)
		}
	}
	s.readUnits()
	s.readCurrency()
	s.readTexts()
	s.readRates()
	s.readRules()
	s.readSubfloor()
}

// take finds which setting a row is.
func (s *settings) take(r row) {
	name, state := read(r, "setting", asText)
	if state != given {
		return
	}
	setting, unit := settingNamed(name)
	if setting == nil {
		fix := "correct the name, or delete the row"
		var known []string
		for i := range table.Settings {
			known = append(known, table.Settings[i].Name)
		}
		if nearest := near(name, known); len(nearest) > 0 {
			fix = fmt.Sprintf("write %s, if that is meant", orList(nearest))
		}
		s.problems.add("", problem.Problem{Code: problem.SettingUnknown, At: r.at("setting"), Found: quote(name), Want: "the name of a setting", Fix: fix})
		return
	}
	if earlier, twice := s.byKey[setting.Key]; twice {
		s.problems.add("", problem.Problem{Code: problem.NameRepeated, At: r.at("setting"), Also: []problem.Ref{earlier.at("setting")},
			Found: fmt.Sprintf("%s a second time", quote(name)), Want: "each setting once", Fix: "delete the row that is not meant"})
		return
	}
	s.byKey[setting.Key], s.units[setting.Key] = r, unit
}

func settingNamed(name string) (*table.Setting, headingUnit) {
	bare, inBrackets := cutBrackets(name)
	folded := fold(bare)
	for i := range table.Settings {
		setting := &table.Settings[i]
		for _, known := range append([]string{setting.Name}, setting.Also...) {
			if fold(known) == folded {
				return setting, parseHeadingUnit(inBrackets)
			}
		}
	}
	return nil, headingUnit{}
}

// require says that a setting the job needs has no row or no value.
func (s *settings) require(setting *table.Setting) {
	if len(s.parts["job"]) == 0 {
		return // said of the sheet
	}
	want := fmt.Sprintf("%s: %s", setting.Name, s.settingWants(setting))
	r, found := s.byKey[setting.Key]
	if !found {
		s.problems.add("", problem.Problem{Code: problem.CellMissing, At: s.place(),
			Found: "no row " + quote(setting.Name), Want: want, Fix: fmt.Sprintf("add a row %s with its value", quote(setting.Name))})
		return
	}
	if cell, _ := r.cell("value"); cell.Kind == book.Empty {
		s.problems.add("", problem.Problem{Code: problem.CellMissing, At: r.at("value"), Found: "nothing", Want: want, Fix: "fill in the cell"})
	}
}

// place is where the settings stand, for those without a row.
func (s *settings) place() problem.Ref {
	if len(s.parts["job"]) == 0 {
		return problem.Ref{Sheet: "Job"}
	}
	p := s.parts["job"][0]
	return problem.Ref{Sheet: p.sheet.Name, Row: p.heading.cells.Number, Col: p.columns["setting"]}
}

func (s *settings) settingWants(setting *table.Setting) string {
	switch {
	case setting.Kind == table.Choice:
		return strings.Join(setting.Choices, ", ")
	case setting.Key == "currency":
		return "a code of ISO 4217 such as EUR, GBP or USD"
	}
	return s.wants(setting.Kind)
}

// setting reads one setting; an empty or missing one takes its default.
func setting[T any](s *settings, key string, parse func(input) (T, *fault)) (value T, found state) {
	declared := declaredSetting(key)
	r, there := s.byKey[key]
	cell := book.Cell{}
	if there {
		cell, _ = r.cell("value")
	}
	if cell.Kind == book.Empty {
		if declared.Required {
			return value, unknown
		}
		if read, flaw := parse(input{kind: book.Text, text: declared.Default, currency: s.job.Settings.Currency}); flaw == nil && declared.Default != "" {
			value = read
		}
		return value, blank
	}
	if cell.Kind == book.Error && cell.Text == "" {
		return value, unknown
	}
	in, ok := s.input(cell, declared.Kind, s.units[key])
	if !ok {
		return value, unknown
	}
	value, flaw := parse(in)
	if cell.Kind == book.Error {
		flaw = unreadable("the spreadsheet shows an error there: mend its formula, or write the value")
	}
	if flaw == nil {
		return value, given
	}
	want := flaw.want
	if want == "" {
		want = s.settingWants(declared)
	}
	s.problems.add("", problem.Problem{Code: flaw.code, At: r.at("value"), Found: quote(s.book.Shown(cell)), Want: want, Fix: fmt.Sprintf("%s (%s)", flaw.fix, declared.Name)})
	return value, unknown
}

func declaredSetting(key string) *table.Setting {
	for i := range table.Settings {
		if table.Settings[i].Key == key {
			return &table.Settings[i]
		}
	}
	panic("in: there is no setting " + key)
}

func (s *settings) readUnits() {
	j := &s.job.Settings
	word, state := setting(s, "lengthunit", asChoice(table.LengthUnits))
	s.noLengthUnit = state != given
	if state == given {
		j.LengthUnit, _ = measure.ParseUnit(table.LengthUnits[word])
	}
	word, state = setting(s, "areaunit", asChoice(table.AreaUnits))
	s.noAreaUnit = state == unknown || state == blank && s.noLengthUnit
	switch {
	case state == given:
		j.AreaUnit, _ = measure.ParseAreaUnit(table.AreaUnits[word])
	case j.LengthUnit.Imperial():
		j.AreaUnit = measure.Ft2
	}
}

func (s *settings) readCurrency() {
	currency, state := setting(s, "currency", func(in input) (money.Currency, *fault) {
		found, err := money.Lookup(in.text)
		if err != nil {
			return found, &fault{code: problem.CurrencyUnknown, want: "a code of ISO 4217 such as EUR, GBP or USD", fix: err.Error()}
		}
		return found, nil
	})
	if state == given {
		s.job.Settings.Currency = currency
	}
}

func (s *settings) readTexts() {
	j := &s.job.Settings
	j.Name, _ = setting(s, "name", asText)
	j.Number, _ = setting(s, "number", asText)
	j.Company, _ = setting(s, "company", asText)
	j.CompanyAddress, _ = setting(s, "companyaddress", asText)
	j.Client, _ = setting(s, "client", asText)
	j.Site, _ = setting(s, "site", asText)
	j.TaxName, _ = setting(s, "taxname", asText)
	j.Date, _ = setting(s, "date", asDate)
	j.StartDate, _ = setting(s, "start", asDate)
}

func (s *settings) readRates() {
	j := &s.job.Settings
	for _, rate := range []struct {
		key   string
		field *decimal.Decimal
	}{
		{"tax", &j.TaxPercent}, {"materialcontingency", &j.MaterialContingency}, {"labourcontingency", &j.LabourContingency},
		{"othercontingency", &j.OtherContingency}, {"overhead", &j.OverheadPercent}, {"profit", &j.ProfitPercent},
		{"retention", &j.RetentionPercent}, {"breakage", &j.BreakagePercent}, {"attic", &j.AtticPercent}, {"takeofftolerance", &j.TakeoffTolerance},
		{"riskfewer", &j.Risk.FewerHours}, {"riskmore", &j.Risk.MoreHours}, {"riskbreakage", &j.Risk.Breakage}, {"riskprices", &j.Risk.PriceRise}, {"risktarget", &j.Risk.TargetMargin},
	} {
		*rate.field = s.percent(rate.key)
	}
	step, state := setting(s, "pricestep", asAmount)
	if state == given && j.Currency.Code != "" {
		j.PriceStep = j.Currency.Round(step)
	}
	j.LearningPercent = s.percent("learning")
	j.HoursADay, _ = setting(s, "hoursaday", asQuantity)
	j.LeastCallOut, _ = setting(s, "callout", asQuantity)
	j.FloorStorage, _ = setting(s, "floorstorage", asQuantity)
	j.OvertimeAfter, _ = setting(s, "overtimeafter", asQuantity)
}

// percent reads per cents; see row.percent.
func (s *settings) percent(key string) decimal.Decimal {
	value, state := setting(s, key, asPercent)
	if r, there := s.byKey[key]; there && state == given && value.Sign() > 0 && value.Cmp(decimal.New(1, 0)) < 0 {
		if cell, _ := r.cell("value"); cell.Kind == book.Number && s.book.Format(cell).Kind != book.Percent {
			r.doubt(problem.PercentDoubtful, "value", fmt.Sprintf("per cent: %s is taken as %s %%", value, value),
				fmt.Sprintf("write %s if %s %% is meant, or format the cell as a percentage", value.Shift(2), value.Shift(2)))
		}
	}
	return value
}

func (s *settings) readRules() {
	j := &s.job.Settings
	basis, _ := setting(s, "profitbasis", asChoice(job.ProfitBases))
	j.ProfitBasis = job.ProfitBasis(basis)
	j.Sharing = s.level("sharing")
	j.PackRounding = s.level("packrounding")
	part, _ := setting(s, "deliveries", asChoice(job.DeliveryParts))
	j.Deliveries = job.Deliveries(part)
	rule, _ := setting(s, "measuringrule", asChoice(job.MeasuringRules))
	j.MeasuringRule = job.MeasuringRule(rule)
	j.PurchaseTaxIsCost, _ = setting(s, "purchasetax", asYesNo)
	j.DefaultKerf, _ = setting(s, "kerf", asLength)
	j.DoorWidth, _ = setting(s, "doorwidth", asLength)
	j.LeastUseful, _ = setting(s, "leastuseful", asLength)
	j.Crews, _ = setting(s, "crews", asWholeUpTo(1000))
	j.CrewSize, _ = setting(s, "crewsize", asWholeUpTo(1000))
	week, _ := setting(s, "workingdays", asChoice(job.WorkingWeeks))
	j.WorkingWeek = job.WorkingWeek(week)
	j.BuildingYear, _ = setting(s, "buildingyear", asWhole)
	j.EntranceFloor, _ = setting(s, "entrancefloor", asWholeUpTo(100))
	j.Lift, _ = setting(s, "lift", asYesNo)
	seed, _ := setting(s, "seed", asWhole)
	j.Seed = int64(seed)
}

func (s *settings) level(key string) job.Level {
	level, _ := setting(s, key, asChoice(declaredSetting(key).Choices))
	return job.SharingLevels[level]
}
