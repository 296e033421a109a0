// Package estimate runs a job from its data to its result, in one direction:
// building, layout, quantities, cutting, purchase, labour, programme, price.
package estimate

import (
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

// Result is everything computed for a job.
type Result struct {
	Job       *job.Job
	Building  *building.Building
	Floors    []Floor     // rooms that share planks, by product, then place
	RoomFloor []RoomFloor // by room index
	Racked    []Racked    // rooms with boards of random lengths, in the order of the rooms
	Subfloor  *subfloor.Survey
	Takeoff   *quantity.Takeoff
	Cutting   []cutting.Pool
	Needs     []purchase.Need

	Consignments []Consignment // first laid first; one when the job is delivered as a whole

	Choices   purchase.Choices // of products that several suppliers offer
	Materials []purchase.Material
	Orders    []purchase.Order
	Splits    []purchase.Split // of suppliers with several orders
	Labour    []labour.Line
	Programme programme.Programme
	Price     price.Price

	Risk *risk.Outcome // nil when the job gives no ranges

	Alternatives []Alternative // the job's options, in their order

	inConsignment []int // by index of the place

	plans    *plans // made so far, also for other results
	Checks   []Check
	Problems problem.List // warnings and cautions of the whole run
}

// Floor is a pool: the rooms of one place that are laid from common planks.
// Pools whose rooms are alike share one plan.
type Floor struct {
	ID      string // unique: place and product
	Product *job.Product
	Place   string
	Rooms   []*building.Room // as Plan.Layouts
	Plan    *layout.Plan
	First   int // index of the first floor with the same plan
}

// RoomFloor says where a room's layout is.
type RoomFloor struct {
	Floor  int    // index into Floors; -1 when the covering is not laid by pieces
	Slot   int    // index into the floor's Plan.Layouts
	Layout string // id of the layout: alike for rooms of alike pools; "" when none
}

// Layout is the layout of a room, nil when its covering is not laid by pieces.
func (r *Result) Layout(room *building.Room) *layout.Layout {
	at := r.RoomFloor[room.Index]
	if at.Floor < 0 {
		return nil
	}
	return &r.Floors[at.Floor].Plan.Layouts[at.Slot]
}

// Check is one invariant with both its sides.
type Check struct {
	Name  string
	OK    bool
	Left  string
	Right string
}
