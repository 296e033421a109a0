package estimate

import (
	"slices"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

var eur = money.Currency{Code: "EUR", Minor: 2}

// offer gives a product of the small job a further supplier on other terms.
func offer(j *job.Job, p *job.Product, supplier *job.Supplier, change func(*job.Product)) {
	own, other := *p, *p
	other.Supplier = supplier
	change(&other)
	p.Offers = []*job.Product{&own, &other}
	j.Suppliers = append(j.Suppliers, supplier)
}

// The same planks, 8 in a pack at 54.90, are offered by another supplier 4 in
// a pack; half a pack's price is 27.45. What is needed is counted in the packs
// of whoever gets the order.
func TestOffersAreCountedOnTheirOwnTerms(t *testing.T) {
	for _, row := range []struct {
		name, price, supplier string
		perPack               int64
	}{{"dearer", "30.00", "S1", 8}, {"cheaper", "20.00", "S2", 4}} {
		j := smallJob()
		oak := j.BuildUps[0].Covering().Product
		offer(j, oak, &job.Supplier{Code: "S2", Name: "Other", MinimumOrder: eur.Zero(), Delivery: eur.Zero(), FreeFrom: eur.Zero()}, func(p *job.Product) {
			p.PiecesPerPack, p.AreaPerPack, p.Price = 4, 4*p.Length.Times(p.Width), dec(row.price)
		})
		r := run(t, j)
		if len(r.Choices.Products) != 1 || !r.Choices.Proven {
			t.Fatalf("%s: choices %+v", row.name, r.Choices)
		}
		line, supplier := lineOf(r, "OAK")
		if supplier != row.supplier {
			t.Errorf("%s: bought from %s", row.name, supplier)
		}
		material := r.Materials[slices.IndexFunc(r.Materials, func(m purchase.Material) bool { return m.Product.Code == "OAK" })]
		plank := int64(oak.Length.Times(oak.Width))
		need := int64(0)
		for _, floor := range r.Floors {
			need += int64(floor.Plan.Planks)
		}
		need += material.Spare / plank
		if packs := (need + row.perPack - 1) / row.perPack; line.Quantity.IntPart() != packs || material.Bought != packs*row.perPack*plank {
			t.Errorf("%s: %s packs for %d planks, %d of material", row.name, line.Quantity, need, material.Bought)
		}
		for _, check := range r.Checks {
			if !check.OK {
				t.Errorf("%s: %s: %s, %s", row.name, check.Name, check.Left, check.Right)
			}
		}
		if oak.PiecesPerPack != 8 || oak.Supplier.Code != "S1" {
			t.Errorf("%s: the job itself was changed", row.name)
		}
	}
}

func lineOf(r *Result, code string) (purchase.Line, string) {
	for _, order := range r.Orders {
		for _, line := range order.Lines {
			if line.Product.Code == code {
				return line, order.Supplier.Code
			}
		}
	}
	return purchase.Line{}, ""
}
