package in

import (
	"fmt"
	"sort"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

func (r *reader) readTrades() {
	r.trades = newNames[*job.Trade]("trade", "Trades", r.found("trades") || !r.blank["trades"])
	r.each("trades", func(r row) {
		t := &job.Trade{Ref: r.record("trade"), Name: r.name("trade"), BurdenPercent: r.percent("burden"), Overtime: r.number("overtime")}
		t.Wage, _ = r.price("wage")
		r.job.Trades = append(r.job.Trades, t)
		r.trades.add(r, "trade", t.Name, t)
	})
}

func (r *reader) readOperations() {
	r.operations = newNames[*job.Operation]("operation", "Operations", true)
	r.each("operations", func(r row) {
		o := &job.Operation{Ref: r.record("code"), Code: r.name("code"), Description: r.text("description"),
			HoursPerUnit: r.number("hours"), LeastHours: r.number("least"), Learned: r.yes("learned"), Category: r.text("category")}
		measure, _ := r.choice("measure")
		o.Measure = job.Measure(measure)
		step, state := r.choice("step")
		if o.Step = job.WorkSteps[step]; state == blank {
			o.Step = o.Measure.UsualStep()
		}
		o.Trade, _ = refer(r, "trade", r.trades)
		r.job.Operations = append(r.job.Operations, o)
		r.operations.add(r, "code", o.Code, o)
		if earlier, both := r.products.refs[nameKey(o.Code)]; both && o.Code != "" {
			r.problems.add("", problem.Problem{Code: problem.NameRepeated, At: r.at("code"), Also: []problem.Ref{earlier},
				Found: fmt.Sprintf("%s, which is a product too", quote(o.Code)), Want: "codes that products and operations do not share", Fix: "rename one of them"})
		}
	})
}

func (r *reader) readHolidays() {
	r.each("holidays", func(r row) {
		if date := r.date("date"); !date.IsZero() {
			r.job.Holidays = append(r.job.Holidays, &job.Holiday{Ref: r.record("date"), Date: date, Note: r.text("note")})
		}
	})
}

func (r *reader) readBuildUps() {
	r.buildUps = newNames[*job.BuildUp]("build-up", "Build-ups", r.filled("buildups"))
	r.each("buildups", func(r row) {
		name := r.name("buildup")
		if name == "" {
			return
		}
		buildUp, known := r.buildUps.find(name)
		if !known {
			buildUp = &job.BuildUp{Ref: r.record("buildup"), Name: name}
			r.job.BuildUps = append(r.job.BuildUps, buildUp)
			r.buildUps.add(r, "buildup", name, buildUp)
		}
		if line := r.line(len(buildUp.Lines) + 1); line != nil {
			buildUp.Lines = append(buildUp.Lines, line)
		} else {
			r.problems.unknown[buildUp.Ref] = true
		}
	})
	for _, buildUp := range r.job.BuildUps {
		sort.SliceStable(buildUp.Lines, func(i, j int) bool { return buildUp.Lines[i].Order < buildUp.Lines[j].Order })
	}
}

// line reads a row of a build-up; nil when its item is not known.
func (r row) line(place int) *job.Line {
	l := &job.Line{Ref: r.record("item"), Factor: r.number("factor"), Waste: r.percent("waste"), Note: r.text("note")}
	order, state := read(r, "order", asWhole)
	l.Order = order
	if state == blank {
		l.Order = place
	}
	measure, measureState := r.choice("measure")
	l.Measure = job.Measure(measure)
	item, state := read(r, "item", asText)
	if state != given {
		return nil
	}
	product, isProduct := r.products.find(item)
	operation, isOperation := r.operations.find(item)
	switch {
	case isProduct:
		l.Product = product
	case isOperation:
		l.Operation = operation
	default:
		sound := r.products.sound && !r.blank["operations"]
		r.unknownName("item", item, "product or operation", "Products or Operations", append(append([]string(nil), r.products.list...), r.operations.list...), sound)
		return nil
	}
	kindKnown := !isProduct || r.kindKnown(job.Cell{Row: product.Ref})
	if measureState == unknown || !kindKnown {
		return nil
	}
	return l
}

func (r *reader) readExtras() {
	r.each("extras", func(r row) {
		e := &job.Extra{Ref: r.record("description"), Description: r.text("description"), Quantity: r.number("quantity"), Category: r.text("category")}
		e.UnitCost, _ = r.price("cost")
		per, _ := r.choice("per")
		e.Per = job.ExtraLevels[per]
		tax, state := r.percentOr("tax")
		e.TaxPercent = tax
		if state == blank {
			e.TaxPercent = r.job.Settings.TaxPercent
		}
		r.job.Extras = append(r.job.Extras, e)
	})
}

func (r *reader) readLooseLengths() {
	r.each("loose", func(r row) {
		l := &job.LooseLength{Ref: r.record("product"), Length: r.length("length"), Count: r.whole("count", 100_000), Where: r.text("where")}
		product, state := refer(r, "product", r.products)
		if state == given && product.Kind != job.Trim {
			r.doubt(problem.ChoiceUnknown, "product", "the code of a trim", "name the trim that the pieces are cut from, or delete the row")
			return
		}
		if l.Product = product; state == given {
			r.job.LooseLengths = append(r.job.LooseLengths, l)
		}
	})
}

func (r *reader) readRemnants() {
	r.each("remnants", func(r row) {
		remnant := &job.Remnant{Ref: r.record("product"), Length: r.length("length"), Count: r.whole("count", 100_000), Where: r.text("where")}
		product, state := refer(r, "product", r.products)
		if state != given {
			return
		}
		if product.Kind != job.Trim {
			r.doubt(problem.ChoiceUnknown, "product", "the code of a trim", "name the trim that the remnant is of, or delete the row")
			return
		}
		if remnant.Product = product; product.LengthOf != nil {
			remnant.Product = product.LengthOf
		}
		r.job.Remnants = append(r.job.Remnants, remnant)
	})
}
