// Package job is what the user asks for, as plain data: the tables of the job
// workbook with every cell turned into a typed value, every default filled in
// and every reference followed.
//
// Names and codes keep the spelling of the table that defines them. Every
// record carries the place it came from, so that later stages can say which
// cell a problem belongs to.
package job

import (
	"cmp"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// Job is one job: rooms that repeat by apartment type, the apartments, what is
// laid in them and what it costs.
type Job struct {
	Settings     Settings
	Suppliers    []*Supplier
	Products     []*Product
	BuildUps     []*BuildUp
	Rooms        []*Room
	Apartments   []*Apartment // at least one; a job without the table has one without a name for each type
	OldFloors    []*OldFloor
	Operations   []*Operation
	Trades       []*Trade
	Extras       []*Extra
	LooseLengths []*LooseLength
	Remnants     []*Remnant
	Repairs      []*Repair
	Options      []*Option
	Takeoff      []*TakeoffRoom
	Holidays     []*Holiday
	Sheets       []string // sheet names in the workbook's order, for sorting problems
}

// Settings is the Job sheet. Percentages are per cent: 7.25 is 7.25 %.
type Settings struct {
	Name, Number, Client, Site string
	Company, CompanyAddress    string    // who orders
	Date                       time.Time // zero when not given
	Currency                   money.Currency
	LengthUnit                 measure.Unit
	AreaUnit                   measure.AreaUnit

	TaxName             string
	TaxPercent          decimal.Decimal
	MaterialContingency decimal.Decimal
	LabourContingency   decimal.Decimal
	OtherContingency    decimal.Decimal
	OverheadPercent     decimal.Decimal
	ProfitPercent       decimal.Decimal
	ProfitBasis         ProfitBasis
	PriceStep           money.Amount
	PurchaseTaxIsCost   bool
	RetentionPercent    decimal.Decimal

	BreakagePercent decimal.Decimal
	AtticPercent    decimal.Decimal
	Sharing         Level // off-cuts and rips are shared within
	PackRounding    Level // packs are opened within
	Deliveries      Deliveries
	DefaultKerf     measure.Length
	DoorWidth       measure.Length
	LeastUseful     measure.Length // trim off-cuts from this length on are kept; 0: none

	Flatness   FlatnessGroup // asked of the subfloor
	LevelPlane LevelPlane    // that surveyed floors are levelled to
	TestsPer   Level         // moisture tests are counted by

	Risk             Risk
	TakeoffTolerance decimal.Decimal // per cent that a takeoff's area may be off

	StartDate     time.Time // zero when not given
	Crews         int
	CrewSize      int
	HoursADay     decimal.Decimal
	LeastCallOut  decimal.Decimal // hours that all work of the job is paid for at least
	WorkingWeek   WorkingWeek
	FloorStorage  decimal.Decimal // kg that one floor of the building can store; 0: no limit
	OvertimeAfter decimal.Decimal // hours a day at the plain wage; 0: all

	LearningPercent decimal.Decimal // of the hours that each doubling of like apartments takes; 100 or 0: all

	BuildingYear  int  // 0 when not given
	EntranceFloor int  // number of the floor at street level
	Lift          bool // goods go up in a lift
	MeasuringRule MeasuringRule
	Seed          int64
}

// Risk is how far the job may go another way than estimated, in per cent.
type Risk struct {
	FewerHours, MoreHours decimal.Decimal
	Breakage              decimal.Decimal // of the planks
	PriceRise             decimal.Decimal // of each supplier's prices
	TargetMargin          decimal.Decimal
}

// Given tells whether the job gives a range at all.
func (r Risk) Given() bool {
	return r.FewerHours.Sign() > 0 || r.MoreHours.Sign() > 0 || r.Breakage.Sign() > 0 || r.PriceRise.Sign() > 0
}

// Supplier is somebody to buy from.
type Supplier struct {
	Ref                              problem.Ref
	Code, Name                       string
	Address, City, Postcode          string
	Country, TaxNumber, Email        string
	LeadDays                         int
	MinimumOrder, Delivery, FreeFrom money.Amount    // FreeFrom zero: never free
	DiscountPercent                  decimal.Decimal // off every line whose product has none of its own
	OrderDiscountPercent             decimal.Decimal // off the goods of an order, after the lines' discounts
	OrderDiscountFrom                money.Amount    // goods from which it is given; zero: always
	Paid                             money.Amount    // a deposit or credit that the supplier holds
	PayableStep                      money.Amount    // what sums payable are rounded to; zero: they are not
}

// LineDiscount is the per cent taken off the product's order lines.
func (p *Product) LineDiscount() decimal.Decimal {
	if p.Discount.Valid {
		return p.Discount.Decimal
	}
	return p.Supplier.DiscountPercent
}

// Product is something bought.
type Product struct {
	Ref         problem.Ref
	Code        string
	Description string
	Kind        Kind
	Supplier    *Supplier

	Length, Width, Thickness measure.Length
	PiecesPerPack            int          // 0 when not given
	AreaPerPack              measure.Area // as stated, else pieces x length x width; 0 when neither
	SoldBy                   Unit
	Price                    decimal.Decimal // of one PricePer; may have more places than the currency
	PricePer                 Unit
	OrderStep                decimal.Decimal     // sold units, > 0
	MinimumQuantity          decimal.Decimal     // sold units
	Discount                 decimal.NullDecimal // per cent off its lines; not valid: the supplier's
	LineCharge               money.Amount        // added to an order line whatever its quantity
	PacksPerPallet           int
	Weight                   decimal.Decimal // kg a sold unit, 0 when not given
	LeadDays                 int
	TaxPercent               decimal.Decimal
	Returnable               bool
	PriceBreaks              []PriceBreak

	Shortest      measure.Length // of planks of random lengths the shortest, Length being the longest; 0: all are as long
	LengthOf      *Product       // the trim that this is another stock length of; nil when none
	Joint         Joint
	Pattern       Pattern
	ChevronAngle  shape.Angle // of a chevron: between a block and the line its ends meet on
	Hands         Hands       // of a pack, where the pattern has left and right blocks
	LeastEnd      measure.Length
	LeastStagger  measure.Length
	LeastRow      measure.Length
	Gap           measure.Length
	Kerf          measure.Length
	LongestRun    measure.Length  // 0: no limit
	MoistureLimit decimal.Decimal // most that a moisture reading may be, in the reading's unit; 0: not given
	Movement      decimal.Decimal // plank of solid wood: change of width a per cent of moisture, as a fraction; else 0
	Spread        decimal.Decimal // compound: kg per m2 and mm; else 0
	Holds         decimal.Decimal // skip or bag for waste: m3 one holds; else 0
	Packing       decimal.Decimal // m3 of packing that a sold unit leaves, pressed flat
	PackingWeight decimal.Decimal // kg of it
	SpreadArea    measure.Area    // adhesive: area a sold unit covers; else 0
	Overlap       measure.Length  // film strips
	Upturn        measure.Length  // film at the walls
	Acclimatise   int             // hours that it lies in its rooms before laying
	HeatResist    decimal.Decimal // m2K/W of one layer; 0: not given
	CornerCut     CornerCut       // trim
	Scribing      measure.Length  // trim: added at a scribed end
	JointWidth    measure.Length  // tile: between two tiles
	Notch         measure.Length  // tile: depth of the trowel's notches
	BackCoat      measure.Length  // tile: adhesive on its back

	Offers []*Product // the rows of its code when several suppliers have it, by supplier; they differ in the terms of purchase only
}

// Packed tells whether the product's packing is stated.
func (p *Product) Packed() bool { return p.Packing.Sign() > 0 || p.PackingWeight.Sign() > 0 }

// Mixed tells planks of random lengths.
func (p *Product) Mixed() bool { return p.Kind == Plank && p.Shortest > 0 }

// PriceBreak is the price of a product from an order quantity on.
type PriceBreak struct {
	Ref   problem.Ref
	From  decimal.Decimal // sold units, > 0
	Price decimal.Decimal // of one PricePer, as the product's own
}

// BuildUp is a covering with the layers under it, its edges and the work.
type BuildUp struct {
	Ref   problem.Ref
	Name  string
	Lines []*Line
}

// Covering is the line of the product that is walked on, nil when none.
func (b *BuildUp) Covering() *Line {
	for _, line := range b.Lines {
		if line.Product != nil && line.Product.Kind.Covering() {
			return line
		}
	}
	return nil
}

// ExpansionProfile is the trim that parts a floor longer than its covering may
// run into fields; nil when the build-up has none.
func (b *BuildUp) ExpansionProfile() *Product {
	for _, line := range b.Lines {
		if line.Measure == ExpansionProfiles && line.Product != nil && line.Product.Kind == Trim {
			return line.Product
		}
	}
	return nil
}

// Line is one layer or operation of a build-up; either Product or Operation is
// set.
type Line struct {
	Ref       problem.Ref
	Order     int
	Product   *Product
	Operation *Operation
	Measure   Measure
	Factor    decimal.Decimal
	Waste     decimal.Decimal // per cent
	Note      string
}

// Code is the code of the line's product or operation.
func (l *Line) Code() string {
	if l.Product != nil {
		return l.Product.Code
	}
	return l.Operation.Code
}

// GivesProfiles tells whether the line is a trim for every opening that names no
// profile of its own.
func (l *Line) GivesProfiles() bool {
	return l.Product != nil && l.Product.Kind == Trim && l.Measure == Openings
}

// Room is a room of an apartment type, as drawn, not mirrored.
type Room struct {
	Ref       problem.Ref
	Type      string
	Name      string
	BuildUp   *BuildUp
	Outline   shape.Polygon // walls, and holes given as further rings of corners
	Source    ShapeSource
	Fixtures  []Fixture
	Openings  []Opening // in the order of the table
	Whole     bool      // rooms laid through openings, joined
	Jambs     []Opening // stretches of wall without skirting: sides of openings laid through
	Doors     int       // doors without a place, counted only when there are no Openings
	Direction Direction

	LevelBy   measure.Length
	LiftOld   bool
	OldFloor  *OldFloor // nil when nothing is lifted or its kind is not said
	Skirting  bool
	Heated    bool
	Moisture  decimal.Decimal // reading, 0 when none
	Subfloor  Subfloor
	Flatness  FlatnessGroup
	Readings  []Reading
	Steps     int
	StepWidth measure.Length // 0 when not given
	Note      string
}

// OldFloor is a kind of floor that is lifted before laying.
type OldFloor struct {
	Ref       problem.Ref
	Name      string
	Thickness measure.Length
	Weight    decimal.Decimal // kg a m2
	Operation *Operation      // lifts it, by area; nil when none
}

// CubicYard is a cubic yard in m3: 0.9144 m cubed, exactly.
var CubicYard = decimal.New(764_554_857_984, -12)

// Direction is the laying direction asked for.
type Direction struct {
	Choice DirectionChoice
	Angle  shape.Angle // for AtAngle: anticlockwise from the room's length
}

// Fixture is a thing the floor goes round, or under.
type Fixture struct {
	Ref        problem.Ref
	Box        shape.Box
	FloorUnder bool
}

// Opening is a doorway in a wall of the room.
type Opening struct {
	Ref      problem.Ref
	Wall     int            // index into the outline's walls in walking order, from 0
	From     measure.Length // from the wall's first corner, anticlockwise
	Width    measure.Length
	Depth    measure.Length // wall depth, 0 when not given
	Return   measure.Length // how far skirting turns into the opening on both sides
	LeadsTo  string
	Profile  *Product // nil when none
	Through  bool     // the floor runs through it in one piece
	Undercut bool
}

// Apartment is one flat of the building.
type Apartment struct {
	Ref      problem.Ref
	Name     string
	Type     string
	Floor    string
	Block    string
	Phase    string
	Mirrored bool
	Option   string
	Start    time.Time // zero when not given
	Unlisted bool      // named by repairs only: nothing is laid in it
}

// Named is what the apartment is called: by its type where the job lists none.
func (a *Apartment) Named() string { return cmp.Or(a.Name, a.Type) }

// Operation is a piece of work.
type Operation struct {
	Ref          problem.Ref
	Code         string
	Description  string
	Measure      Measure
	HoursPerUnit decimal.Decimal
	Trade        *Trade
	LeastHours   decimal.Decimal // of the operation's total in one apartment
	Learned      bool            // goes faster with practice, by the job's learning per cent
	Category     string
	Step         Step // of an apartment's programme
}

// Holiday is a day on which nobody works.
type Holiday struct {
	Ref  problem.Ref
	Date time.Time
	Note string
}

// Trade is a kind of worker.
type Trade struct {
	Ref           problem.Ref
	Name          string
	Wage          decimal.Decimal // an hour
	BurdenPercent decimal.Decimal
	Overtime      decimal.Decimal // factor, 1.5 when not given
}

// Extra is a cost by name.
type Extra struct {
	Ref         problem.Ref
	Description string
	Per         Level // LevelRoom is not used
	Quantity    decimal.Decimal
	UnitCost    decimal.Decimal
	Category    string
	TaxPercent  decimal.Decimal
}

// TakeoffRoom is a room of an apartment type as others took it off the plans.
type TakeoffRoom struct {
	Ref        problem.Ref
	Type, Room string
	Ours       *Room // nil when the job has no such room
	Area       measure.Area
	Perimeter  measure.Length // 0 when not given
	Openings   int            // 0 when not given
	Source     string
}

// LooseLength is extra pieces of a trim, cut whole.
type LooseLength struct {
	Ref     problem.Ref
	Product *Product
	Length  measure.Length
	Count   int
	Where   string
}

// Remnant is a length of trim on hand from earlier jobs: it costs nothing and
// there are only so many.
type Remnant struct {
	Ref     problem.Ref
	Product *Product
	Length  measure.Length
	Count   int
	Where   string
}
