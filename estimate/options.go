package estimate

import (
	"context"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/price"
	"laybill/estimate/problem"
)

// Alternative is an option of the job, priced as a whole job.
type Alternative struct {
	Option     *job.Option
	Apartments int // that it changes
	Ladder     price.Ladder
	Hours      decimal.Decimal
	Packs      decimal.Decimal
	Difference money.Amount // of its price from the job's own
}

// RunWithOptions estimates a job and then each of its options, one after
// another. Floors that an option leaves as they are are laid once. What makes an
// option impossible is an error of the whole, named at the option's row.
func RunWithOptions(ctx context.Context, j *job.Job, watch func(Progress)) (*Result, problem.List, error) {
	plans := newPlans()
	r, problems, err := runWith(ctx, j, watch, plans)
	if err != nil || r == nil {
		return nil, problems, err
	}
	for _, option := range j.Options {
		with, found, err := runWith(ctx, j.With(option), watch, plans)
		if err != nil {
			return nil, nil, err
		}
		if with == nil {
			return nil, append(problems, ofOption(option, found)...), nil
		}
		r.Alternatives = append(r.Alternatives, r.alternative(option, with))
	}
	return r, problems, nil
}

// ofOption are the errors of an option, at its row and their own.
func ofOption(option *job.Option, found problem.List) problem.List {
	var errors problem.List
	for _, p := range found {
		if p.Severity == problem.Error {
			p.Also = append([]problem.Ref{p.At}, p.Also...)
			p.At, p.Found = option.Ref, "with "+option.Name+": "+p.Found
			errors = append(errors, p)
		}
	}
	return errors
}

func (r *Result) alternative(option *job.Option, with *Result) Alternative {
	apartments := len(option.InApartments(r.Job))
	if apartments == 0 {
		apartments = len(r.Job.Apartments)
	}
	return Alternative{Option: option, Apartments: apartments, Ladder: with.Price.Ladder, Hours: with.Hours(), Packs: with.Packs(),
		Difference: with.Price.Ladder.Net.Sub(r.Price.Ladder.Net)}
}

// Hours are all hours of the job.
func (r *Result) Hours() decimal.Decimal {
	total := decimal.Zero
	for _, line := range r.Labour {
		total = total.Add(line.Hours)
	}
	return total
}

// Packs are all packs of the orders.
func (r *Result) Packs() decimal.Decimal {
	total := decimal.Zero
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			total = total.Add(line.Packs)
		}
	}
	return total
}
