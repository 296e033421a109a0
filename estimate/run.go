package estimate

import (
	"context"

	"laybill/estimate/building"
	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/layout"
	"laybill/estimate/price"
	"laybill/estimate/problem"
	"laybill/estimate/programme"
	"laybill/estimate/purchase"
	"laybill/estimate/quantity"
	"laybill/estimate/risk"
	"laybill/estimate/subfloor"
)

// Progress is how far a run is.
type Progress struct {
	Stage       string
	Done, Total int
}

// Run estimates a job that reads without errors. When the job itself makes no
// sense the problems hold errors and the result is nil. watch, when not nil,
// is called from one goroutine at a time. The error is the context's.
func Run(ctx context.Context, j *job.Job, watch func(Progress)) (*Result, problem.List, error) {
	return runWith(ctx, j, watch, newPlans())
}

// plans are those made so far, for pools of the same content in this job or in
// another with other options.
type plans struct {
	floors  map[string]*layout.Plan // see layAll
	lengths cutting.Plans
}

func newPlans() *plans { return &plans{floors: map[string]*layout.Plan{}} }

// runWith estimates a job, with the plans that are made already.
func runWith(ctx context.Context, j *job.Job, watch func(Progress), plans *plans) (*Result, problem.List, error) {
	if watch == nil {
		watch = func(Progress) {}
	}
	problems := Review(j)
	if problems.HasErrors() {
		return nil, problems, nil
	}
	j, joined := j.Joined()
	problems.Append(joined)
	j = ownOffers(j)
	r := &Result{Job: j, Building: building.Build(j), plans: plans}
	r.Consignments, r.inConsignment = consignments(j, r.Building.Places())
	if err := r.layAndMeasure(ctx, watch); err != nil {
		return nil, nil, err
	}
	problems.Append(r.cuttingFaults())
	watch(Progress{Stage: "orders"})
	problems.Append(r.order())
	if problems.HasErrors() {
		return nil, problems, nil
	}
	watch(Progress{Stage: "hours and programme"})
	r.Labour = labour.Work(j, r.Takeoff.Lines)
	r.Programme = programme.Plan(j, programme.Work{Places: r.Building.Places(), Subfloor: r.Subfloor, Consignments: r.inConsignment, Labour: r.Labour, Uses: r.Takeoff.Uses, Needs: r.Needs})
	r.dateOrders()
	watch(Progress{Stage: "price"})
	r.Price = price.Climb(j.Settings, r.Building.Places(), r.Orders, r.Takeoff.Uses, r.Labour, j.Extras)
	if j.Settings.Risk.Given() {
		outcome := risk.Simulate(j.Settings, r.Orders, r.Price.Ladder)
		r.Risk = &outcome
	}
	r.Checks = r.checks()
	for _, found := range []problem.List{r.layingProblems(), r.rackedCautions(), r.siteCautions(), r.Programme.Cautions(j)} {
		problems.Append(found)
	}
	r.Problems = problems
	return r, problems, ctx.Err()
}

// layAndMeasure lays the floors, cuts the lengths and measures both.
func (r *Result) layAndMeasure(ctx context.Context, watch func(Progress)) error {
	if err := r.lay(ctx, watch); err != nil {
		return err
	}
	r.rack()
	watch(Progress{Stage: "quantities"})
	r.Subfloor = subfloor.Look(r.Job, r.Building, purchase.SoldPrice)
	r.Takeoff = quantity.Take(r.Job, r.Building, r.laid(), r.Subfloor)
	if err := r.cut(ctx, watch); err != nil {
		return err
	}
	r.countWaste()
	return nil
}

// order buys what is needed from the suppliers that make it cheapest.
func (r *Result) order() problem.List {
	r.Needs = r.needs()
	problems := r.chooseOffers()
	if problems.HasErrors() {
		return problems
	}
	orders, materials, bought := purchase.Buy(r.Job.Settings, r.Job.Suppliers, r.Needs)
	problems.Append(bought)
	if problems.HasErrors() {
		return problems
	}
	r.Orders, r.Materials = orders, materials
	if len(r.Consignments) > 1 {
		r.Splits = purchase.Splits(r.Job.Settings, r.Job.Suppliers, r.Needs, r.Orders)
		problems.Append(purchase.Dearer(r.Splits))
	}
	r.noteHands()
	return problems
}

// cut plans the cutting of every length.
func (r *Result) cut(ctx context.Context, watch func(Progress)) error {
	pools, err := cutting.Plan(ctx, r.Job, r.Takeoff.Lengths, &r.plans.lengths, func(done, total int) {
		watch(Progress{Stage: "cutting lengths", Done: done, Total: total})
	})
	r.Cutting = pools
	r.Takeoff.Uses = append(r.Takeoff.Uses, otherLengths(r.Job, r.Takeoff.Uses)...)
	return err
}

// otherLengths are the uses of trims again for their other stock lengths: what
// those cost is shared out like the trim itself.
func otherLengths(j *job.Job, uses []quantity.Use) []quantity.Use {
	var more []quantity.Use
	for _, product := range j.Products {
		if product.LengthOf == nil {
			continue
		}
		for _, use := range uses {
			if use.Product == product.LengthOf {
				more = append(more, quantity.Use{Product: product, Room: use.Room, Amount: use.Amount})
			}
		}
	}
	return more
}

// cuttingFaults are lengths that are not cut, each named at its cell.
func (r *Result) cuttingFaults() problem.List {
	var list problem.List
	for _, pool := range r.Cutting {
		for _, fault := range pool.Faults {
			p := problem.Problem{Code: problem.RunTooLong, At: pool.Product.Ref, Found: fault.Text,
				Want: "a stock at least as long, or a run that may be joined", Fix: "choose a longer stock for this product"}
			if fault.TooShort {
				p.Code, p.Want, p.Fix = problem.RunTooShort, "a run that can be cut", "leave it out on site, or tidy the outline"
			}
			if loose := fault.Run.Loose; loose != nil {
				p.At, p.Also, p.Fix = loose.Ref, []problem.Ref{pool.Product.Ref}, "choose a longer stock for this product, or correct the length"
				if fault.TooShort {
					p.Want, p.Fix = "a length that can be cut", "correct the length, or delete the row"
				}
			}
			if room := fault.Run.Room; room != nil {
				p.Apartment, p.Room, p.Also = room.Apartment.Name, room.Spec.Name, []problem.Ref{room.Spec.Ref}
			}
			list.Add(p)
		}
	}
	return list
}
