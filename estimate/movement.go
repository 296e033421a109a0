package estimate

import (
	"fmt"

	"github.com/shopspring/decimal"

	"laybill/estimate/building"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
)

// Moisture of wood in the air of a heated house, in per cent of its dry weight at
// 21 C: as planks are laid, at 45 % relative humidity, and at the 60 % of a damp
// summer. Source: table of equilibrium moisture of the Wood Handbook; the two
// humidities are common practice.
var (
	moistureLaid   = decimal.New(85, -1)
	moistureSummer = decimal.New(110, -1)
)

// movement is how much wider a floor of solid wood would grow from one moisture
// to another if nothing held it: width x coefficient x points, the formula of
// the Wood Handbook, good from 6 to 14 %.
func movement(width measure.Length, coefficient, points decimal.Decimal) measure.Length {
	return measure.Length(decimal.NewFromInt(int64(width)).Mul(coefficient).Mul(points).Round(0).IntPart())
}

// movementCautions names the rooms whose planks of solid wood would grow wider
// than their gaps on both sides can take: one caution a product, at its widest
// floor. Rooms divided by expansion profiles, and floors whose planks do not lie in
// rows, are left to the maker.
func (r *Result) movementCautions(list *problem.List) {
	points := moistureSummer.Sub(moistureLaid)
	for _, product := range r.Job.Products {
		if product.Movement.Sign() <= 0 {
			continue
		}
		widest, rooms := r.widestFloor(product)
		if widest == nil {
			continue
		}
		width := acrossRows(r, widest)
		grows := movement(width, product.Movement, points)
		if grows <= 2*product.Gap {
			continue
		}
		list.Add(problem.Problem{Code: problem.WoodMovement, At: product.Ref, Also: []problem.Ref{widest.Spec.Ref}, Room: widest.Spec.Name,
			Found: fmt.Sprintf("the floor of %s, %s mm across the planks of %s, would grow by %s mm (x %s for each of %s points of moisture); rooms with this product: %d",
				widest.Spec.Name, width.Format(measure.MM), product.Code, grows.Format(measure.MM), product.Movement, points, rooms),
			Want: fmt.Sprintf("at most the gaps on both sides, %s mm together", (2 * product.Gap).Format(measure.MM)),
			Fix:  "ask the maker for wider gaps, an expansion profile or a way of fixing that holds the floor, and keep the air between the limits of the maker"})
	}
}

// widestFloor is the room whose rows of the product are widest together, the
// first of several, and how many different rooms are laid so.
func (r *Result) widestFloor(product *job.Product) (widest *building.Room, rooms int) {
	seen := map[*job.Room]bool{}
	for _, room := range r.Building.Rooms {
		covering := room.Spec.BuildUp.Covering()
		if covering == nil || covering.Product != product || acrossRows(r, room) == 0 {
			continue
		}
		if !seen[room.Spec] {
			seen[room.Spec] = true
			rooms++
		}
		if widest == nil || acrossRows(r, room) > acrossRows(r, widest) {
			widest = room
		}
	}
	return widest, rooms
}

// acrossRows is the width of all rows of a room together; 0 where its floor is
// divided or does not lie in rows.
func acrossRows(r *Result, room *building.Room) measure.Length {
	layout := r.Layout(room)
	if layout == nil || layout.Blocks != nil || len(layout.Fields) > 0 || len(layout.Rows) == 0 {
		return 0
	}
	return layout.Rows[len(layout.Rows)-1].Y1 - layout.Rows[0].Y0
}
