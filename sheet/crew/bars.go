package crew

import (
	"fmt"
	"strings"

	"laybill/estimate/cutting"
	"laybill/estimate/job"
	"laybill/estimate/trim"
)

// Bars is a number of bars of trim or film cut alike, in all the places that
// cut alike.
type Bars struct {
	Product *job.Product
	Stock   cutting.Stock
	Places  []string
	Words   string // the pieces in the order of the cuts
	trim.Bar
}

// InAll is how many bars all places cut.
func (r Bars) InAll() int { return r.Count * len(r.Places) }

// Description names the stock: the product, or remnants and where they are.
func (r Bars) Description() string {
	switch {
	case r.Stock.Remnant == nil:
		return r.Product.Description
	case r.Stock.Remnant.Where == "":
		return "remnant on hand"
	}
	return "remnant: " + r.Stock.Remnant.Where
}

// KeepWord is "keep" where the off-cut is kept.
func (r Bars) KeepWord() string {
	if r.Kept {
		return "keep"
	}
	return ""
}

// Bars gathers the bars of all pools; pools of one product that are cut alike
// are one.
func (l *Lists) Bars() []Bars {
	var rows []Bars
	at := map[string]int{} // first row of pools cut alike
	for i := range l.result.Cutting {
		pool := &l.result.Cutting[i]
		where := Place(pool.Place)
		own := l.barsOf(pool)
		key := fmt.Sprintf("%p%v", pool.Product, pool.Stocks)
		for _, row := range own {
			key += fmt.Sprintf("|%d %d %s", row.Bar.Stock, row.Count, row.Words)
		}
		first, known := at[key]
		if !known {
			at[key] = len(rows)
			rows = append(rows, own...)
			first = at[key]
		}
		for j := range own {
			rows[first+j].Places = append(rows[first+j].Places, where)
		}
	}
	return rows
}

// joined writes the pieces of a bar, equal ones together: 3 x 640 + 480.
func joined(pieces []string) string {
	var parts []string
	for i := 0; i < len(pieces); {
		j := i
		for j < len(pieces) && pieces[j] == pieces[i] {
			j++
		}
		part := pieces[i]
		if j-i > 1 {
			part = fmt.Sprintf("%d x %s", j-i, part)
		}
		parts = append(parts, part)
		i = j
	}
	return strings.Join(parts, "  +  ")
}

// SomeNames is the names, as far as one still reads them.
func SomeNames(names []string) string {
	const most = 40
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// Place is the name of a place; the job as a whole has none of its own.
func Place(place string) string {
	if place == "" {
		return "whole job"
	}
	return place
}
