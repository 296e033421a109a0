package in

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/problem"
)

// readOptions reads the alternatives: rows of one name are one option.
func (r *reader) readOptions() {
	options := newNames[*job.Option]("option", "Options", r.filled("options"))
	r.each("options", func(r row) {
		name := r.name("option")
		swap, ok := r.swap()
		if name == "" {
			return
		}
		option, known := options.find(name)
		if !known {
			option = &job.Option{Ref: r.record("option"), Name: name, Note: r.text("note")}
			r.job.Options = append(r.job.Options, option)
			options.add(r, "option", name, option)
		}
		if ok {
			option.Swaps = append(option.Swaps, swap)
		}
	})
	if options.sound {
		r.followOptions(options)
	}
}

// swap reads what is replaced by what: two build-ups or two products of one
// kind.
func (r row) swap() (job.Swap, bool) {
	s := job.Swap{Ref: r.record("replace")}
	replaced, state1 := read(r, "replace", asText)
	with, state2 := read(r, "with", asText)
	if state1 != given || state2 != given {
		return s, false
	}
	var isBuildUp, isProduct, ok bool
	s.BuildUp, isBuildUp = r.buildUps.find(replaced)
	s.Product, isProduct = r.products.find(replaced)
	switch {
	case isBuildUp && isProduct:
		r.doubt(problem.CellAmbiguous, "replace", "a name that is not a build-up and a product both", "rename one of them")
	case isBuildUp:
		s.Product = nil
		if s.WithBuildUp, ok = r.buildUps.find(with); !ok {
			r.unknownName("with", with, "build-up", "Build-ups", r.buildUps.list, r.buildUps.sound)
		}
	case isProduct:
		if s.WithProduct, ok = r.products.find(with); !ok {
			r.unknownName("with", with, "product", "Products", r.products.list, r.products.sound)
		} else if s.WithProduct.Kind != s.Product.Kind {
			r.problems.add("", problem.Problem{Code: problem.OptionUnfit, At: r.at("with"), Found: fmt.Sprintf("a %s in the place of a %s", s.WithProduct.Kind, s.Product.Kind),
				Want: "a product of the kind of the one replaced", Fix: "name another product, or replace the build-up as a whole"})
			return s, false
		}
	default:
		known := append(append([]string(nil), r.buildUps.list...), r.products.list...)
		r.unknownName("replace", replaced, "build-up or product", "Build-ups or Products", known, r.buildUps.sound && r.products.sound)
	}
	return s, ok
}

// followOptions spells the options of apartments as the Options sheet does.
func (r *reader) followOptions(options *names[*job.Option]) {
	for _, a := range r.job.Apartments {
		if a.Option == "" {
			continue
		}
		if option, known := options.find(a.Option); known {
			a.Option = option.Name
			continue
		}
		r.problems.add("option "+nameKey(a.Option), problem.Problem{Code: problem.NameUnknown, At: a.Ref, Found: "the option " + quote(a.Option),
			Want: "an option of the sheet Options", Fix: "correct the name, or add a row for it to Options"})
	}
}
