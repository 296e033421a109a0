package job

import (
	"cmp"

	"laybill/estimate/measure"
)

// The words of the workbook's choices. Each list is in the order of its
// constants and is what the reader accepts, the drop-down lists offer and the
// result prints.

// Level is how far something reaches.
type Level int

// The levels, narrowest first.
const (
	LevelRoom Level = iota
	LevelApartment
	LevelFloor
	LevelBlock
	LevelJob
)

var (
	levelWords = []string{"room", "apartment", "floor", "block", "job"}

	// SharingLevels and ExtraLevels are the levels that the settings for
	// off-cuts and packs, and the Extras table, offer.
	SharingLevels = []Level{LevelRoom, LevelApartment, LevelFloor, LevelJob}
	ExtraLevels   = []Level{LevelJob, LevelBlock, LevelFloor, LevelApartment}
)

func (l Level) String() string { return levelWords[l] }

// Deliveries says what part of the building a delivery is for.
type Deliveries int

// One delivery of each supplier for the whole job, or one for each of its
// blocks, phases or floors.
const (
	DeliverJob Deliveries = iota
	DeliverBlocks
	DeliverPhases
	DeliverFloors
)

// DeliveryParts are the words of the parts.
var DeliveryParts = []string{"job", "block", "phase", "floor"}

func (d Deliveries) String() string { return DeliveryParts[d] }

// Part names the part of the building that the apartment's goods are delivered
// for; the job as a whole has no name.
func (d Deliveries) Part(a *Apartment) string {
	switch d {
	case DeliverBlocks:
		return "block " + cmp.Or(a.Block, "-")
	case DeliverPhases:
		return "phase " + cmp.Or(a.Phase, "-")
	case DeliverFloors:
		if a.Block != "" {
			return "block " + a.Block + ", floor " + cmp.Or(a.Floor, "-")
		}
		return "floor " + cmp.Or(a.Floor, "-")
	}
	return ""
}

// ProfitBasis says what the profit per cent is a share of.
type ProfitBasis int

// OnPrice makes the per cent a margin, OnCost a markup.
const (
	OnPrice ProfitBasis = iota
	OnCost
)

// ProfitBases are the words of the bases.
var ProfitBases = []string{"on price", "on cost"}

func (b ProfitBasis) String() string { return ProfitBases[b] }

// Kind is what a product is in the floor.
type Kind int

// The kinds of product.
const (
	Plank Kind = iota
	Tile
	Roll
	Sheet
	Underlay
	Film
	Trim
	Compound
	Adhesive
	Each
)

// Kinds are the words of the kinds.
var Kinds = []string{"plank", "tile", "roll", "sheet", "underlay", "film", "trim", "compound", "adhesive", "each"}

func (k Kind) String() string { return Kinds[k] }

// Covering tells whether the kind is walked on.
func (k Kind) Covering() bool { return k == Plank || k == Tile || k == Roll }

// InStrips tells whether the kind is laid in strips that are cut from rolls or
// boards.
func (k Kind) InStrips() bool { return k == Film || k == Underlay }

// Unit is what a product is sold or priced by.
type Unit int

// The units of sale.
const (
	PerPack Unit = iota
	PerPiece
	PerSquareMetre
	PerSquareFoot
	PerSquareYard
	PerMetre
	PerFoot
	PerRoll
	PerBag
	PerTub
	PerEach
)

// Units are the words of the units of sale.
var Units = []string{"pack", "piece", "m2", "ft2", "yd2", "m", "ft", "roll", "bag", "tub", "each"}

func (u Unit) String() string { return Units[u] }

// Area tells whether the unit is one of area.
func (u Unit) Area() bool { return u == PerSquareMetre || u == PerSquareFoot || u == PerSquareYard }

// Joint is how planks meet.
type Joint int

// The joints. Click and TongueGroove planks have handed ends; GlueDown and
// Loose planks may be cut at either end.
const (
	Click Joint = iota
	TongueGroove
	GlueDown
	Loose
)

// Joints are the words of the joints.
var Joints = []string{"click", "tongue-groove", "glue-down", "loose"}

func (j Joint) String() string { return Joints[j] }

// Pattern is how the end joints of neighbouring rows of planks lie.
type Pattern int

// The patterns.
const (
	PatternRandom Pattern = iota
	PatternHalf
	PatternThird
	PatternHerringbone
	PatternDoubleHerringbone
	PatternChevron
)

// Patterns are the words of the patterns.
var Patterns = []string{"random", "half", "third", "herringbone", "double herringbone", "chevron"}

func (p Pattern) String() string { return Patterns[p] }

// Rows is after how many rows the joints of a fixed pattern are alike again, 0
// of a random one. A row lies a plank's length over it further than the row
// before.
func (p Pattern) Rows() int { return map[Pattern]int{PatternHalf: 2, PatternThird: 3}[p] }

// Blocks tells a pattern of left and right blocks from rows of planks.
func (p Pattern) Blocks() bool {
	return p == PatternHerringbone || p == PatternDoubleHerringbone || p == PatternChevron
}

// Hands is which of the left and right blocks of a pattern come in a pack.
type Hands int

// The hands of packs.
const (
	HandsMixed Hands = iota
	HandsApart
)

// HandsWords are the words of the hands.
var HandsWords = []string{"both in a pack", "packs of each"}

func (h Hands) String() string { return HandsWords[h] }

// CornerCut is how the ends of a trim are cut at the corners of a room.
type CornerCut int

// The cuts. Squared ends have no allowance. Mitred ends are mitred at inside and
// outside corners. Scribed ends are cut to the profile of the piece before
// them at inside corners, whose own end is square, and mitred at outside ones.
const (
	Squared CornerCut = iota
	Mitred
	Scribed
)

// CornerCuts are the words of the cuts.
var CornerCuts = []string{"square", "mitred", "scribed"}

func (c CornerCut) String() string { return CornerCuts[c] }

// Measure is what a line of a build-up or an operation is measured by.
type Measure int

// The measures. Rows, Pieces and Cuts come from the layout, Seams from the
// strips of film or underlay; OldFloorArea counts rooms whose old floor is
// lifted, Undercuts the openings whose frame is cut. AreaDepth, LevelledArea and
// Grinding (area x depth taken off) come from the levelling of the subfloor. Runs
// are the walls less the openings, with skirting or without. ExpansionProfiles
// is the length of the profiles between the fields of a floor longer than its
// covering may run. TileBed and TileJoints are the litres of tile adhesive and of
// grout. WasteVolume and WasteWeight are the lifted old floor, what the
// covering's layout and the cutting of lengths leave over, as solid material, and
// packing. Rips and Notches are the pieces
// of the layout that are cut along their length, and round a corner or a fixture;
// InsideCorners and OutsideCorners those of the skirting on the outer walls; Bags
// what the room takes of goods sold by the bag; Carried the room's packs and bags
// times the storeys that they are carried.
const (
	FloorArea Measure = iota
	LaidArea
	OldFloorArea
	Perimeter
	SkirtingLength
	Runs
	Openings
	ExpansionProfiles
	Undercuts
	AreaDepth
	TileBed
	TileJoints
	RoomCount
	ApartmentCount
	Packs
	Cuts
	Rows
	Pieces
	Seams
	Steps
	Fixed
	LevelledArea
	Grinding
	MoistureTests
	WasteVolume
	WasteWeight
	Rips
	Notches
	InsideCorners
	OutsideCorners
	Bags
	Carried
)

// Measures are the words of the measures.
var Measures = []string{"floor area", "laid area", "old floor area", "perimeter", "skirting", "runs", "openings", "expansion profiles", "undercuts", "area x depth", "bed", "joints", "rooms",
	"apartments", "packs", "cuts", "rows", "pieces", "seams", "steps", "fixed", "levelled area", "grinding", "moisture tests", "waste volume", "waste weight",
	"rips", "notches", "inside corners", "outside corners", "bags", "carried"}

func (m Measure) String() string { return Measures[m] }

// InRoom tells whether the measure is counted room by room, and not once for a
// whole place.
func (m Measure) InRoom() bool { return m != ApartmentCount && m != Fixed && m != MoistureTests }

// ByLitre tells measures of what is mixed by weight for a volume: tile adhesive
// and grout.
func (m Measure) ByLitre() bool { return m == TileBed || m == TileJoints }

// OfWaste tells measures of what is taken away.
func (m Measure) OfWaste() bool { return m == WasteVolume || m == WasteWeight }

// DirectionChoice is how the laying direction is found.
type DirectionChoice int

// The choices. LongerSide is what an empty cell means; Auto lets the layout
// choose what needs fewest planks.
const (
	LongerSide DirectionChoice = iota
	AtAngle
	Auto
)

// ShapeSource is where a room's shape came from, best first.
type ShapeSource int

// The sources of a room's shape.
const (
	FromCorners ShapeSource = iota
	FromOutline
	FromSides
	FromAreaAndPerimeter
	FromArea
)

// ShapeSources are the sources in words, for the Basis.
var ShapeSources = []string{"corners", "outline", "length x width", "area and perimeter (equivalent rectangle)", "area alone (assumed rectangle 4 : 3)"}

func (s ShapeSource) String() string { return ShapeSources[s] }

// MeasuringRule says which voids are not deducted from the area that is
// billed. Sources: ATV DIN 18365 (0.10 m2), SMM7 (0.50 m2); the 1.00 m2 rule
// of NRM2 is from memory.
type MeasuringRule int

// The measuring rules.
const (
	DeductAll MeasuringRule = iota
	UpTo010
	UpTo050
	UpTo100
)

// MeasuringRules are the words of the measuring rules.
var MeasuringRules = []string{"deduct all", "up to 0.10 m2 not deducted", "up to 0.50 m2 not deducted", "up to 1.00 m2 not deducted"}

func (r MeasuringRule) String() string { return MeasuringRules[r] }

// MeasuredThrough is the widest opening that the rule measures skirting through:
// interruptions of lengths up to 1 m in the German rules (ATV DIN 18363 and
// others); the others deduct every opening.
func (r MeasuringRule) MeasuredThrough() measure.Length {
	if r == UpTo010 {
		return measure.Metre
	}
	return 0
}

// BillingSkirting says in a client's words which openings the rule deducts.
func (r MeasuringRule) BillingSkirting() string {
	if r.MeasuredThrough() > 0 {
		return "openings up to 1 m wide are measured through (as in ATV DIN 18363)"
	}
	return "openings are deducted"
}

// Billing says in a client's words which voids the rule deducts.
func (r MeasuringRule) Billing() string {
	return [...]string{
		"columns, hearths and other voids are deducted",
		"voids up to 0.10 m2 are not deducted (as in ATV DIN 18365)",
		"voids up to 0.50 m2 within the floor are not deducted (as in SMM7)",
		"voids up to 1.00 m2 within the floor are not deducted (as in NRM2)",
	}[r]
}
