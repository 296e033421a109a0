// Package proof is the second opinion on a result file: it lays the cut list
// back into the rooms, recounts every plank, bar, pack, hour and amount from
// the file alone, and says for each invariant whether it holds. It shares no
// code with the packages that made the result.
//
// This file is the authoritative description of the result file, schema
// "laybill.result/1". Keys not listed here are ignored.
//
// # Numbers
//
// Lengths are millimetres, as JSON numbers or decimal strings, whole multiples
// of 1/320 mm, so a 64th of an inch (0.396875 mm) is exact. Amounts of money,
// unit prices, percentages, quantities and hours are decimals, as strings or
// numbers; a percentage is written as a person says it (7.25 is 7.25 %).
// Amounts have no more decimals than the currency's minor unit (ISO 4217); unit
// prices may. Materials are whole numbers in the units named there. A number
// has at most 40 digits and an exponent of at most 20.
//
// # Names
//
// A room is named by apartment and room name. In a job without apartments the
// apartment is "" and entries that name a room also carry its type. Names are
// compared exactly as written.
//
// # Frames
//
// A room's outline and holes are in the room's own frame, x east, y north, as
// built (mirroring already applied). A layout's frame is the room's, turned
// about the room's 0,0 and not shifted: the point x, y of the room lies at
//
//	x cos d + y sin d,  -x sin d + y cos d
//
// in a layout whose direction_deg is d, so that planks run along x and rows
// rise with y. A plank's frame has x from its left factory end (0) to its right
// one (length_mm) and y from its near edge (0) to its far edge (width_mm);
// planks are never turned or flipped.
//
// In a floor of blocks the right blocks of a herringbone run along x and the
// left ones along y; the points of a herringbone run at 45 degrees between
// them, those of a chevron along x. Rows run along the points and rise to their
// left, pieces in the order of the points. A block is never turned or flipped:
// its frame has the layout's axes, its 0,0 is the lower left corner of the
// rectangle round it.
package proof

// Schema is the only schema that Check accepts.
const Schema = "laybill.result/1"

// file is the result file.
type file struct {
	Schema      string          `json:"schema"`
	Job         jobEntry        `json:"job"`
	Rooms       []roomEntry     `json:"rooms"`    // by apartment, then type, then room
	Repaired    []roomEntry     `json:"repaired"` // places of repairs: named like rooms, nothing is laid there; by apartment, then type, then room
	Repairs     []repairEntry   `json:"repairs"`
	Layouts     []layoutEntry   `json:"layouts"`
	Stock       []stockEntry    `json:"stock"`
	Pools       []poolEntry     `json:"pools"`
	Lengths     []lengthEntry   `json:"lengths"`
	Corners     []cornerEntry   `json:"corners"`
	Trims       []trimEntry     `json:"trims"`
	Choices     []choiceEntry   `json:"trim_choices"`
	Materials   []materialEntry `json:"materials"`
	Subfloors   []subfloorEntry `json:"subfloors"`
	Tests       []testEntry     `json:"moisture_tests"`
	Quantities  []quantityEntry `json:"quantities"`
	Uses        []useEntry      `json:"uses"`
	Waste       *wasteEntry     `json:"waste"` // null: waste is not counted, or not recounted
	Terms       *termsEntry     `json:"terms"` // null: not checked
	Orders      []orderEntry    `json:"orders"`
	AtOnce      []orderEntry    `json:"ordered_at_once"`
	Labour      []labourEntry   `json:"labour"`
	Calendar    *calendarEntry  `json:"calendar"` // null: the job gives no dates
	Programme   []stepEntry     `json:"programme"`
	Deliveries  []deliveryEntry `json:"deliveries"`
	Extras      []extraEntry    `json:"extras"`
	Costs       []costEntry     `json:"costs"`
	Price       priceEntry      `json:"price"`
	Options     []optionEntry   `json:"options"`
	Takeoff     []takeoffEntry  `json:"takeoff"`
	Risk        *riskEntry      `json:"risk"` // null when the job gives no ranges
	RoomShares  []shareEntry    `json:"room_shares"`
	ByApartment []shareEntry    `json:"by_apartment"`
	Cautions    []cautionEntry  `json:"cautions"`
	Problems    []cautionEntry  `json:"problems"`
	Checks      []checkEntry    `json:"checks"`
}

type jobEntry struct {
	Name     string `json:"name"`
	Currency string `json:"currency"` // ISO 4217, with a minor unit

	// How far off-cuts are shared and for what packs are opened: room, apartment,
	// floor (of a block), block or job; left out: not said. Breakage and attic stock
	// are percentages of the planks cut, of each hand, rounded up to whole planks
	// where packs are opened. A place has its planks and its spares in whole packs.
	Sharing      string `json:"offcut_sharing"`
	PackRounding string `json:"pack_rounding"`
	Breakage     number `json:"breakage_pct"`
	Attic        number `json:"attic_pct"`

	// Hours of a working day beyond overtime_after, when that is above 0, are paid
	// at the trade's overtime factor.
	HoursADay     *number `json:"hours_a_day"`
	OvertimeAfter *number `json:"overtime_after"`

	// All hours of the labour are at least least_call_out_h, where there are any.
	LeastCallOut *number `json:"least_call_out_h"`

	// Goods are carried from the entrance floor, in a lift where there is one.
	EntranceFloor int  `json:"entrance_floor"`
	Lift          bool `json:"lift"`

	// Below 100, work that is learned takes this share of its hours for every doubling
	// of the apartments of a type, in the order of apartments.
	Learning   *number `json:"learning_pct"`
	Apartments []place `json:"apartments"` // where hours are learned, in the order in which they are counted; room is null
}

// place names a room, or with Room null an apartment, or with both empty the job.
type place struct {
	Apartment string  `json:"apartment"`
	Type      string  `json:"type"` // needed only where apartment is ""
	Room      *string `json:"room"`
}

// roomEntry is one room of one apartment as built.
type roomEntry struct {
	Apartment string       `json:"apartment"`
	Type      string       `json:"type"`
	Room      string       `json:"room"`
	Floor     string       `json:"floor"`
	Block     string       `json:"block"`
	Outline   ring         `json:"outline_mm"`   // walls, first point not repeated, either turn
	Holes     []ring       `json:"holes_mm"`     // fixtures the floor goes round; may touch the walls and each other
	Fields    []fieldEntry `json:"fields"`       // parts laid in one piece each, an expansion profile between them; left out: laid in one piece
	Area      *number      `json:"area_m2"`      // outline less holes, rounded to the decimals it shows, at least 2
	Perimeter *length      `json:"perimeter_mm"` // of the outline; within 0.5 mm a slanted wall
	Layout    *string      `json:"layout"`       // id, null when the covering is not laid by pieces
	Pool      string       `json:"pool"`         // off-cut pool of the room's planks; needed with a layout
	Mirrored  bool         `json:"mirrored"`     // mirror image, about a north-south line, of the type's room of the same name
	OldFloor  string       `json:"old_floor"`    // of waste, lifted before laying; left out: none whose waste is counted

	Openings []openingEntry `json:"openings"`
}

// repairEntry is pieces replaced in a place of repaired. From a plank come as many
// pieces as fit with kerf between them; planks from stock are cut first, the new
// ones bought. The area of a place is that of its pieces; the use of a product
// there is the area of its pieces cut from new planks.
type repairEntry struct {
	place
	Product     string `json:"product"`
	Pieces      int64  `json:"pieces"`
	Length      length `json:"length_mm"` // of each piece, as wide as a plank
	PlankLength length `json:"plank_length_mm"`
	PlankWidth  length `json:"plank_width_mm"`
	Kerf        length `json:"kerf_mm"`
	FromStock   int64  `json:"from_stock"` // planks on hand
	NewPlanks   int64  `json:"new_planks"`
	Rows        int64  `json:"rows"` // taken up to reach the pieces; 0: cut out in place
}

// openingEntry is a doorway or gap in a wall. Walls are numbered from 1
// anticlockwise from the corner nearest 0,0 (of several the lowest, then the
// leftmost); wall 0 is a door that is only counted: it shortens the longest run.
type openingEntry struct {
	Wall     int      `json:"wall"`
	From     length   `json:"from_mm"` // from the wall's first corner, anticlockwise
	Width    length   `json:"width_mm"`
	Return   length   `json:"return_mm"` // how far skirting turns into both its sides
	Profiles []string `json:"profiles"`  // products that stand in it, a piece of each in lengths; left out: none
}

// lengthEntry is one piece to be cut from stock. Where the file has lengths, they
// are all that the bars of their product and pool are cut into; a pool of
// trim_choices has its pieces under its own product and pool.
//
// A piece for skirting or runs covers a stretch of wall between corners and
// openings; skirting has the returns besides. It is as long as the stretch
// (run_mm) and what its ends add, see cornerEntry. One no longer than a saw cut
// has no piece. A stretch longer than the
// stock comes in parts, numbered from the left as seen facing the wall, that add
// up to the same. A piece for perimeter is as long as its wall, for openings as
// wide as an opening of its wall that names its product. A product accounted for
// by length has pieces wherever it is measured by skirting, runs or perimeter.
// Where fields meet are pieces for expansion profiles.
type lengthEntry struct {
	place
	Product string   `json:"product"`
	Pool    string   `json:"pool"`
	For     string   `json:"for"`  // what it is measured by, or loose
	Wall    int      `json:"wall"` // 0 or left out: none
	Run     length   `json:"run_mm"`
	Length  length   `json:"length_mm"`
	Part    int      `json:"part"` // 0 or left out: in one piece
	Parts   int      `json:"parts"`
	Return  bool     `json:"return"`
	Ends    []string `json:"ends"` // left and right as seen facing the wall: square, inside mitre, outside mitre, scribed, joint; left out: square
}

// cornerEntry says how a trim is cut where two runs meet in a corner. mitred:
// both ends, inside and outside. scribed: inside corners have a square right end
// and a scribed left one. An outside mitre adds thickness x tan(turn / 2), a
// scribed end the scribing allowance, other ends nothing. Products that are not
// listed have square ends. Angles of slanted walls leave 0.5 mm of slack.
type cornerEntry struct {
	Product   string `json:"product"`
	Cut       string `json:"corner_cut"` // mitred or scribed
	Thickness length `json:"thickness_mm"`
	Scribing  length `json:"scribing_mm"`
}

// fieldEntry is a part of a room, in the room's frame. Fields cover the floor
// once; where two meet stands an expansion profile, with the gap on both sides.
type fieldEntry struct {
	Outline ring   `json:"outline_mm"`
	Holes   []ring `json:"holes_mm"`
}

// layoutEntry is a floor laid piece by piece. Rooms that name it have the same
// floor. Two rooms of one pool name different layouts; rooms of different pools
// may share one when their pools are alike plank by plank.
type layoutEntry struct {
	ID         string        `json:"id"`
	Product    string        `json:"product"`
	Racked     *rackedEntry  `json:"racked"`        // of kind racked
	Kind       string        `json:"kind"`          // plank; racked: boards of random lengths; herringbone, double herringbone, chevron: blocks; other kinds are not laid back
	Direction  number        `json:"direction_deg"` // of the planks, anticlockwise from the room's x
	Gap        length        `json:"gap_mm"`        // expansion gap along walls and holes; corners are mitred
	Kerf       length        `json:"kerf_mm"`       // lost between two pieces of a plank
	Joint      string        `json:"joint"`         // click, tongue-groove: handed; glue-down, loose: not
	Rules      rules         `json:"rules"`
	Pattern    *patternEntry `json:"pattern"`            // null or left out: joints at random
	Planks     int           `json:"planks"`             // planks first cut for this layout, its pool laid in the order of rooms
	LowerBound *int          `json:"lower_bound_planks"` // of this floor alone; null where its pool has several rooms
	Blocks     *blocksEntry  `json:"blocks"`             // of a floor of blocks
	Pieces     []pieceEntry  `json:"pieces"`
	// Certificate proves LowerBound, see certificateEntry; null: not certified.
	Certificate *certificateEntry `json:"certificate"`
}

// blocksEntry says where the blocks of a pattern lie, in the layout's frame.
//
// Of a herringbone of blocks L x W, n = 1 or 2 abreast, a right unit of n blocks
// lies from the origin, L along x and nW along y; a left unit stands with its
// lower left corner at L, nW - L. Both repeat by (nW, nW) and (-L, L).
//
// Of a chevron a left block has the corners 0,0; pitch,0; pitch + slant,depth;
// slant,depth from the origin, a right one slant,0; pitch + slant,0;
// pitch,depth; 0,depth from 0,depth. Both repeat by (pitch, 0) and (0, 2 depth).
// With the angle a: slant = L cos a, depth = L sin a, pitch = W / sin a, each
// within 1/320 mm.
type blocksEntry struct {
	Origin ring    `json:"origin_mm"` // [x,y]
	Angle  *number `json:"angle_deg"` // of a chevron
	Pitch  length  `json:"pitch_mm"`
	Depth  length  `json:"depth_mm"`
	Slant  length  `json:"slant_mm"`
}

// rules are lengths in mm. A rule that a room does not keep needs a caution or
// problem that names the room, the row and the word in brackets.
type rules struct {
	LeastEnd     length `json:"least_end"`     // [end] first and last piece of a row of two or more
	LeastStagger length `json:"least_stagger"` // [stagger] joints of neighbouring rows, where both reach the line between the rows
	LeastRow     length `json:"least_row"`     // [row] width of the first and the last row, at its widest piece
	LongestRun   length `json:"longest_run"`   // [run] of a field along the room's x or y; left out or 0: no such rule
	LeastLineUp  length `json:"least_line_up"` // [line-up] joints two rows apart; left out or 0: no such rule
}

// rackedEntry is a floor of boards of random lengths. Each of its pieces is an
// unbroken row and cut from no stock. Least is the area of the rows. Most is the
// board's width times, for every row, its length, half a least end piece (rounded
// down) that may be thrown away and a kerf; and two of the longest boards, divided
// by the rooms of the same product and pool, rounded up. Both in squares of 1/320 mm.
type rackedEntry struct {
	Shortest length `json:"shortest_mm"`
	Longest  length `json:"longest_mm"`
	Width    length `json:"width_mm"`
	Least    whole  `json:"least"`
	Most     whole  `json:"most"`
}

// patternEntry is a fixed pattern. The joints of the floor's first row lie at
// phase_mm in the layout's frame and whole planks from it, those of every row
// beyond by its shift; after the last shift the first one follows again. Of n
// shifts the i-th, from 0, is i/n of a plank, rounded by half a millimetre at
// most. A row that leaves the pattern needs a caution or problem that names the
// room, the row and the rule "pattern".
type patternEntry struct {
	Name   string   `json:"name"` // half, third
	Phase  length   `json:"phase_mm"`
	Phases []length `json:"field_phases_mm"` // of the fields in the order of their rows; left out where there are none
	Shifts []length `json:"shifts_mm"`
}

// pieceEntry is one piece of a floor. Rows are numbered upwards by 1, pieces of
// a row upwards by 1 along x (a row interrupted by a hole counts on); from field
// to field rows are numbered on.
type pieceEntry struct {
	Row     int    `json:"row"`
	Seq     int    `json:"seq"`
	At      ring   `json:"at_mm"`       // in the layout's frame, first point not repeated
	Holes   []ring `json:"holes_mm"`    // cut out of the piece, which needs a caution that names room, row and the rule "hole"
	Stock   int    `json:"stock"`       // number of the plank in the room's pool
	Hand    string `json:"hand"`        // left or right, of a piece of a block
	InStock box    `json:"in_stock_mm"` // [x0,y0,x1,y1] in the plank's frame, as large as the piece's bounding box (0.5 mm slack on slanted sides)
}

// stockEntry is one plank cut or laid; spares are not listed.
type stockEntry struct {
	Product string `json:"product"`
	Pool    string `json:"pool"`
	Number  int    `json:"number"` // unique in product and pool
	Length  length `json:"length_mm"`
	Width   length `json:"width_mm"`
	Hand    string `json:"hand"` // left or right, of a block
}

// poolEntry is the plank count of one off-cut pool, one entry for every product
// and pool in stock.
type poolEntry struct {
	Product     string            `json:"product"`
	Pool        string            `json:"pool"`
	Planks      int               `json:"planks"`             // number of stock entries
	LowerBound  *int              `json:"lower_bound_planks"` // planks that no way of cutting these rows undercuts
	Searched    bool              `json:"searched"`           // the bound beyond the certificate comes from a search; it is reported as not certified
	AllPhases   bool              `json:"all_phases"`         // the bound is for the pool's only room in its pattern: the least over all phases, recounted
	Certificate *certificateEntry `json:"certificate"`        // null: certified by area and row capacity only
	Spots       []spotEntry       `json:"spots"`              // of blocks: their pieces add up to a lower bound
}

// spotEntry is a place in the blocks of a hand that so many of the pool's pieces
// hold or come nearer to than half a kerf. No two of these can be cut from one
// block, since a piece has one place in a block: that in which it lies in the
// pattern.
type spotEntry struct {
	Hand   string `json:"hand"`
	At     ring   `json:"at_mm"` // [x,y] in the block's frame
	Pieces int64  `json:"pieces"`
}

// certificateEntry proves a lower bound on planks. It counts rows, of which no two can be ripped side by side from one plank, and prices
// each by a value function on off-cuts. Of the rows of a length and place the
// widest are counted. A row takes its full width of the planks: what is cut off
// along a piece at an inner wall, a column or a slanted wall serves no other row.
//
// A row (an unbroken chain of pieces) that fits one plank is one piece and needs
// no factory end. Another, of length R = qL + r, 0 < r <= L, takes a starter from
// an off-cut with a right end and leaves one where its end piece is cut. With
// the value v of an off-cut by its length, v(L) at most plank, v = 0 below the
// first step, rising, the least that the row can cost is the minimum of
//
//	q plank + v(a) - v(a-r-k)        max(r,e) <= a <= min(L, r+L-e)     R > L
//	(q+1) plank + v(a) - v(L-k-r+a)  e <= a <= r-e                      R > L
//	v(o) - v(o-R-k)                  R <= o <= L                        R <= L
//
// with kerf k and least end piece e, and the bound is the sum of count x price
// over plank, rounded up. Derivation: linear-programming duality on the flow of
// off-cuts. It holds without handed ends, where a plank gives two pieces c1 and c2
// with a factory end at a joint, and between them rows of one piece: let a piece
// weigh half of v(c) + plank - v(L-k-c). As v falls from L-k-c2 to c1, and from
// L-k-c1 to c2, by at least the prices of what is cut between, the plank's pieces
// weigh no more than it; and a row weighs the mean of what it costs from its left
// and from its right.
type certificateEntry struct {
	Rows   []certifiedRow `json:"rows"`
	Values []valueStep    `json:"values"` // rising lengths, rising weights; the last weight is at most plank
	Plank  int64          `json:"plank"`  // weight of a whole plank, > 0, at most 2^40
}

type certifiedRow struct {
	Length length `json:"row_length_mm"`
	Edges  string `json:"edges"` // by its place in the floor: far (first row), near (last row), none (only row), both or left out (any other)
	Count  int64  `json:"count"` // at most as many as there are
	Price  int64  `json:"price"` // weight, at most the minimum above
}

// valueStep says that off-cuts from this length on are worth the weight.
type valueStep struct {
	From   length `json:"from_mm"`
	Weight int64  `json:"weight"`
}

// trimEntry is one pool of goods cut to length.
type trimEntry struct {
	Product     string           `json:"product"`
	Pool        string           `json:"pool"`
	StockLength length           `json:"stock_length_mm"`
	Kerf        length           `json:"kerf_mm"` // between two cuts, not at a bar's end
	Bars        []barEntry       `json:"bars"`
	LowerBound  *int64           `json:"lower_bound_bars"`
	Proven      bool             `json:"proven"`   // only when the bars equal the bound
	Searched    bool             `json:"searched"` // the bound beyond the certificate comes from a search; reported as not certified
	Remnants    bool             `json:"remnants"` // bars on hand, not bought: no material
	Runs        []runEntry       `json:"runs"`     // where the stock is the pool's only one
	Certificate *trimCertificate `json:"certificate"`
}

// runEntry is some runs of one length, longer than the stock, that are split
// alike: into the fewest parts of at most the longest stock of any number, none
// under Least. Bounds hold for every such split, but for that of runs split by
// rule, which is taken as it is.
type runEntry struct {
	Length length   `json:"length_mm"`
	Least  length   `json:"least_part_mm"`
	Parts  []length `json:"parts_mm"`
	Count  int64    `json:"count"`
	ByRule bool     `json:"by_rule"`
}

// choiceEntry is a pool of cuts that may come from stock of several lengths and
// prices. Its bars are the entries of trims named by its stocks.
type choiceEntry struct {
	Product     string             `json:"product"`
	Pool        string             `json:"pool"`
	Kerf        length             `json:"kerf_mm"`
	Stocks      []stockChoice      `json:"stocks"`
	Cost        int64              `json:"cost"`             // sum of bars x price
	LowerBound  int64              `json:"lower_bound_cost"` // that no way of cutting undercuts
	Proven      bool               `json:"proven"`
	Searched    bool               `json:"searched"` // as in trims
	Runs        []runEntry         `json:"runs"`     // as in trims
	Certificate *choiceCertificate `json:"certificate"`

	demand []cutCount // of all stocks
	wanted wanted     // what must be cut
}

// stockChoice is one length that a pool may be cut from.
type stockChoice struct {
	Product string `json:"product"` // with Pool: the entry of trims that lists its bars, if any
	Pool    string `json:"pool"`
	Length  length `json:"length_mm"`
	Price   int64  `json:"price"` // of one bar, in a unit of the pool's own
	Limit   int64  `json:"limit"` // remnants on hand; 0: any number can be bought

	bars int64
}

// choiceCertificate proves a bound on cost: no cuts that fit one bar of a stock
// weigh more than its entry in Bars, so only counts of bars that carry the
// weight of all cuts make a plan. Counts must do so in every further
// certificate too.
type choiceCertificate struct {
	Cuts    []weightEntry       `json:"cuts"`
	Bars    []int64             `json:"bars"` // by stock
	Further []choiceCertificate `json:"further"`
}

type barEntry struct {
	Cuts  []length `json:"cuts_mm"`
	Count int64    `json:"count"`
}

// trimCertificate proves a bound: no cuts that fit one bar weigh more than Bar,
// so the bars are at least the weight of all cuts over Bar, runs being split so
// that they weigh least. A length not listed weighs nothing. Further certificates stand on their own; the best counts.
type trimCertificate struct {
	Cuts    []weightEntry     `json:"cuts"`
	Bar     int64             `json:"bar"`
	Further []trimCertificate `json:"further"`
}

type weightEntry struct {
	Length length `json:"length_mm"`
	Weight int64  `json:"weight"` // 0 to 2^40
}

// materialEntry accounts for all that is bought of a product, one entry a
// product, in whole units: squares of 1/320 mm (unit "area"), 1/320 mm (unit
// "length"), else sold units. Bought is the sum of
// laid, spare, returned, left_over and waste.
type materialEntry struct {
	Product  string  `json:"product"`
	Unit     string  `json:"unit"` // area, length, or the word it is sold by
	Bought   whole   `json:"bought"`
	Laid     whole   `json:"laid"`  // planks: the pieces' areas; goods cut to length: all cuts, of film by its width
	Spare    whole   `json:"spare"` // breakage and attic stock
	Attic    whole   `json:"attic"` // the part of spare that is attic stock; left out: none
	Returned whole   `json:"returned"`
	LeftOver whole   `json:"left_over"`
	Waste    whole   `json:"waste"`         // laid and waste are the planks, bars or rolls cut
	Piece    *whole  `json:"piece"`         // size of one plank, tile, bar or roll in the unit; null when not bought in pieces
	PerSold  *number `json:"per_sold_unit"` // units in one sold unit, needed when piece is null
	Hands    *hands  `json:"hands"`         // of left and right blocks; null when the product has no hands
}

// hands is how many blocks of each hand are needed, spares included. What is
// bought is enough for both: twice the larger need of packs that hold both alike,
// whole packs of each hand of others.
type hands struct {
	Packs  string `json:"packs"` // both in a pack, packs of each
	Left   int64  `json:"left"`
	Right  int64  `json:"right"`
	InPack int64  `json:"pieces_per_pack"` // 0: sold by the piece
}

// subfloorEntry is the subfloor of a room that has level readings, or without
// them says a depth of compound. The floor between the readings is flat over
// each triangle; beyond them every place has the height of the nearest place of
// the triangles. A straightedge lies over every two readings that no wall
// stands between; where one finds the floor further off than its flatness group
// allows (DIN 18202 table 3), compound fills the floor up to the plane, and what
// stands out over it by more than the allowance is ground off. Where grinding
// alone makes the floor keep its group there is no compound.
type subfloorEntry struct {
	place
	Readings  [][3]length  `json:"readings_mm"` // x, y as built, height over any datum
	Triangles [][3]int     `json:"triangles"`   // of readings by index from 0, anticlockwise, each circle empty
	Group     string       `json:"flatness_group"`
	Broken    int          `json:"straightedges_broken"`
	Worst     []worstEntry `json:"worst"` // of the distances up to 1 m, 4 m, 10 m and beyond
	Plane     *planeEntry  `json:"plane"` // null when no straightedge breaks the group
	Fill      layerEntry   `json:"fill"`
	Ground    layerEntry   `json:"ground"`
}

// worstEntry is a straightedge that takes most of its limit.
type worstEntry struct {
	From      [2]length `json:"from_mm"`
	To        [2]length `json:"to_mm"`
	Deviation length    `json:"deviation_mm"` // below the straightedge negative
	Limit     length    `json:"limit_mm"`     // straight-line between the distances of the standard, whole mm
}

// planeEntry is a plane over the room's own frame.
type planeEntry struct {
	Height    length `json:"height_mm"` // at 0,0
	RiseX     number `json:"rise_x_mm_a_m"`
	RiseY     number `json:"rise_y_mm_a_m"`
	Allowance length `json:"allowance_mm"`
}

// layerEntry is what is put on or taken off a floor.
type layerEntry struct {
	Area   whole `json:"area_mm2"`
	Volume whole `json:"volume_mm3"`
}

// testEntry is the moisture tests of one place: three for the first 1000 ft2 of
// its rooms' floors and one for each started further 1000 ft2.
type testEntry struct {
	Place string  `json:"place"`
	Rooms []place `json:"rooms"`
	Count int64   `json:"count"`
}

// quantityEntry is one layer or operation measured in one place. Those measured
// by floor area, old floor area, laid area (of a layout), perimeter, runs, skirting, corners,
// expansion profiles and rooms, in rows of planks by pieces, cuts, rips, notches
// and packs, by bags and carried, and from the subfloors by area x depth, grinding and levelled
// area, are recounted when factor is given: quantity is measure x factor x
// (1 + waste), rounded to 4 decimals. So are those by pieces, rows and laid area in
// a place with one repair, and those by waste volume and waste weight by
// wasteEntry. Where quantities are listed, the quantity of
// a labour line is the sum of those of its operation in its place.
//
// Of a layout's pieces those narrower than their plank are rips, those with a hole
// or an inward corner are notches. What is carried is packs and bags times the
// storeys between the room's floor and the entrance floor, at most one with a lift.
// Cuts are rips, notches, the ends of pieces that
// are no ends of their planks, and pieces with a slanted side.
type quantityEntry struct {
	place
	Item       string  `json:"item"`
	MeasuredBy string  `json:"measured_by"`
	Factor     *number `json:"factor"`
	Waste      number  `json:"waste_pct"`
	Quantity   number  `json:"quantity"`
	Unit       string  `json:"unit"` // m2, ft2, yd2, m, ft or a count's word
	Bags       *number `json:"bags"` // that the line takes, of goods sold by the bag, to 8 decimals; no more than are ordered
}

// useEntry is how much of a product a room takes: what its order cost is shared
// by. For planks it is the area of the room's pieces in squares of 1/320 mm.
// Entries without a room carry no share. Without any entry in the file, material
// shares are checked by their sums only.
type useEntry struct {
	place
	Product string `json:"product"`
	Amount  whole  `json:"amount"`
}

// wasteEntry is what the waste of a room is counted from: solid material and
// packing pressed flat. A room leaves
//
//   - the old floor that it names, over its floor area;
//   - of planks with a layout its part of what the planks of its pool have beyond
//     their pieces, by the area of its own; of another covering the waste of its
//     quantity: use x waste_pct / (100 + waste_pct), of random lengths nothing;
//   - of goods cut to length its part of what the bars of each pool have beyond their
//     cuts, but for off-cuts kept, by the length of its pieces; a bar's off-cut is what
//     is left behind a kerf after every cut;
//   - the packing of the planks of its layout and of the lengths cut for it, in parts
//     of sold units, and of what it has in unpacked.
//
// Parts of a pool are whole squares or 1/320 mm: the sums of the parts so far are
// rounded down, rooms or lengths taken in the order of the file. A place with one
// repair leaves as much as its planks, new and from stock, and the packing of the
// new ones by their area. Quantities are recounted to their last decimal, those
// within 1e-8 of a half either way.
type wasteEntry struct {
	LeastKept length          `json:"least_kept_mm"` // off-cuts of lengths from this on are kept; 0: none
	OldFloors []oldFloorEntry `json:"old_floors"`
	Goods     []goodsEntry    `json:"goods"` // all that leave waste, by the products that pools are named by
	Unpacked  []unpackedEntry `json:"unpacked"`
}

type oldFloorEntry struct {
	OldFloor  string `json:"old_floor"`
	Thickness length `json:"thickness_mm"`
	Weight    number `json:"weight_kg_a_m2"`
}

// goodsEntry is what a product leaves waste by. Goods without a thickness, or cut
// to length without a width, have no volume; those without area_m2 or
// pieces_per_sold_unit no weight of what is cut off.
type goodsEntry struct {
	Product       string  `json:"product"`
	Covering      bool    `json:"covering"`
	Length        length  `json:"length_mm"` // of a plank, bar or roll; 0: none
	Width         length  `json:"width_mm"`
	Thickness     length  `json:"thickness_mm"`
	Weight        number  `json:"weight_kg"`            // of a sold unit
	Pieces        *number `json:"pieces_per_sold_unit"` // to 12 decimals; of planks and goods cut to length
	Area          *number `json:"area_m2"`              // of a sold unit of a covering
	Packing       number  `json:"packing_m3"`           // of a sold unit
	PackingWeight number  `json:"packing_kg"`
}

// unpackedEntry is what a room takes of goods in packing that have neither a
// layout nor lengths, in sold units to 12 decimals.
type unpackedEntry struct {
	place
	Product string `json:"product"`
	Sold    number `json:"sold_units"`
}

// termsEntry is what the job's sheets agree with suppliers, workers and others:
// of every supplier and product ordered, every trade that works, and every extra
// in the order of extras. Orders, labour and extras state the same terms again,
// where they are used.
type termsEntry struct {
	Suppliers []supplierTerms `json:"suppliers"`
	Prices    []priceTerms    `json:"prices"`
	Trades    []tradeTerms    `json:"trades"`
	Extras    []extraTerms    `json:"extras"`
}

type supplierTerms struct {
	Supplier     string  `json:"supplier"`
	MinimumOrder number  `json:"minimum_order"`
	Charge       number  `json:"delivery_charge"`
	FreeFrom     *number `json:"free_from"` // null: never free
	orderTerms
}

// orderTerms is what a supplier takes off whole orders, and how they are paid.
// Left out: nothing of it.
type orderTerms struct {
	DiscountPercent number  `json:"order_discount_pct"`  // of the goods
	DiscountFrom    *number `json:"order_discount_from"` // goods from which it is taken off; null: always
	PaidAlready     number  `json:"paid_already"`        // held by the supplier, for all its orders
	PayableStep     *number `json:"payable_step"`        // null: sums payable are not rounded
}

type priceTerms struct {
	Product  string       `json:"product"`
	Supplier string       `json:"supplier"`
	Price    number       `json:"list_price"` // below the first break
	PricePer string       `json:"price_per"`
	Breaks   []breakEntry `json:"breaks"`
	Discount number       `json:"discount_pct"`
	Charge   number       `json:"line_charge"`
	Tax      number       `json:"tax_pct"`
}

type tradeTerms struct {
	Trade    string `json:"trade"`
	Wage     number `json:"wage"`
	Burden   number `json:"burden_pct"`
	Overtime number `json:"overtime_factor"`
}

type extraTerms struct {
	Description string `json:"description"`
	UnitCost    number `json:"unit_cost"`
}

// orderEntry is one order to a supplier. Those of ordered_at_once are not placed:
// one for each supplier with several orders, as one order of the same products,
// and no more of them, for the whole job.
type orderEntry struct {
	Supplier     string      `json:"supplier"`
	Number       string      `json:"number"` // one for each part of the building that the job's deliveries are made for
	Lines        []lineEntry `json:"lines"`
	For          string      `json:"for"`             // the part; "" for the whole job
	NeededBy     *day        `json:"needed_by"`       // the first day of its deliveries on site; null without dates
	OrderBy      *day        `json:"order_by"`        // the first day that one of them must be ordered
	Goods        *number     `json:"goods"`           // sum of the lines' nets
	MinimumOrder *number     `json:"minimum_order"`   // supplement = minimum less goods, 0 when reached; null: not checked
	Charge       *number     `json:"delivery_charge"` // delivery = charge, 0 from free_from on; null: not checked
	FreeFrom     *number     `json:"free_from"`       // null: never free
	orderTerms
	Discount   number     `json:"order_discount"` // round(goods x order_discount_pct), 0 below order_discount_from
	Delivery   number     `json:"delivery"`
	Supplement number     `json:"supplement"`
	Net        number     `json:"net"`   // goods - order_discount + delivery + supplement
	Taxes      []taxEntry `json:"taxes"` // one a rate; may be left out
	Tax        number     `json:"tax"`   // sum over the rates; delivery and supplement at price.tax_pct
	Gross      number     `json:"gross"`
	Paid       number     `json:"paid"`     // of paid_already, what the orders before leave, at most gross
	Rounding   number     `json:"rounding"` // payable less (gross - paid)
	Payable    *number    `json:"payable"`  // gross - paid to the nearest payable_step, half up; null: not checked
}

// lineEntry is one product of an order:
// net = round(quantity x units_per_sold x price x (1 - discount)) + line_charge.
type lineEntry struct {
	Product       string       `json:"product"`
	Kind          string       `json:"kind"`     // of the product: plank, tile, roll, ..
	Quantity      number       `json:"quantity"` // sold units
	SoldBy        string       `json:"sold_by"`
	Packs         *number      `json:"packs"`           // equals quantity when sold by the pack; null when there are none
	PiecesPerPack *number      `json:"pieces_per_pack"` // null when not counted in pieces
	Pieces        *number      `json:"pieces"`          // packs x pieces_per_pack, or the quantity of goods sold singly; null when not in pieces
	Price         number       `json:"price"`           // of one price_per
	PricePer      string       `json:"price_per"`
	UnitsPerSold  *number      `json:"units_per_sold"` // price units in one sold unit; left out: 1
	ListPrice     *number      `json:"list_price"`     // price below the first break
	Breaks        []breakEntry `json:"breaks"`         // price is that of the highest break reached; rising quantities
	Discount      number       `json:"discount_pct"`
	Charge        number       `json:"line_charge"` // whatever the quantity
	Net           number       `json:"net"`
	Tax           number       `json:"tax_pct"`
}

type breakEntry struct {
	From  number `json:"from_quantity"`
	Price number `json:"price"`
}

type taxEntry struct {
	Percent  number `json:"tax_pct"`
	Discount number `json:"order_discount"` // its share, by the goods of each rate, the lowest rate first; see shareEntry
	Base     number `json:"base"`           // goods of the rate less its discount, and the charges that bear it
	Tax      number `json:"tax"`            // round(base x percent)
}

// labourEntry is one operation in one room; with room null, what least hours
// add in an apartment, what the least call-out adds in the job, or a line of the
// job.
type labourEntry struct {
	place
	Operation    string  `json:"operation"`
	Trade        string  `json:"trade"`
	Quantity     *number `json:"quantity"`        // 0 or null for what least hours add
	HoursPerUnit *number `json:"hours_per_unit"`  // hours = round(quantity x hours per unit x learning factor, 0.01 h)
	Repeat       int     `json:"repeat"`          // number of the apartment among those of its type; 0: practice does not count
	Factor       *number `json:"learning_factor"` // repeat to the power log2 of the learning per cent, to 4 decimals; null: 1
	LeastHours   *number `json:"least_hours"`     // of the operation in the apartment
	Hours        number  `json:"hours"`
	Wage         *number `json:"wage"`       // an hour
	Burden       *number `json:"burden_pct"` // left out: 0
	Overtime     *number `json:"overtime_factor"`
	CallOut      bool    `json:"call_out"` // brings all hours of the labour to the least call-out
	Cost         number  `json:"cost"`     // round(hours x wage x (1 + (overtime factor - 1) x overtime hours / hours a day) x (1 + burden))
}

// calendarEntry is when and with whom the job is worked.
type calendarEntry struct {
	WorkingDays  []string `json:"working_days"` // Monday, Tuesday, ..
	Holidays     []day    `json:"holidays"`     // not worked
	Crews        int      `json:"crews"`
	CrewSize     int      `json:"crew_size"`
	HoursADay    number   `json:"hours_a_day"`
	FloorStorage number   `json:"floor_storage_kg"`   // that a floor of a block can store; 0: no limit
	Finish       day      `json:"finish"`             // last day of work
	Bound        day      `json:"lower_bound_finish"` // no programme of these crews ends earlier
}

// stepEntry is a step of an apartment, or of the job where apartment and type
// are empty: preparation, moisture test, hold point, levelling, drying, delivery,
// acclimatisation, film and underlay, laying, trims, snag and handover, in this
// order. The hours of a crew's step are worked on working days from start to
// end; of a step in which nobody works they pass, 24 a day, from start to end.
type stepEntry struct {
	place
	Step        string `json:"step"`
	Crew        *int   `json:"crew"` // from 1; null: nobody works
	Hours       number `json:"hours"`
	Start       day    `json:"start"`          // dates are of ISO 8601: 2027-01-11
	StartWorked number `json:"start_worked_h"` // man-hours that a crew has worked on that day when the step begins
	End         day    `json:"end"`
	EndWorked   number `json:"end_worked_h"`
}

// deliveryEntry is what a supplier brings to a floor on a day. Days are null in
// a job without dates.
type deliveryEntry struct {
	Supplier string        `json:"supplier"`
	For      string        `json:"for"` // the part of the building that its order is for
	Block    string        `json:"block"`
	Floor    string        `json:"floor"`
	OnSite   day           `json:"on_site"`
	OrderBy  day           `json:"order_by"` // on_site less the longest lead time of its lines
	Lines    []supplyEntry `json:"lines"`
}

// supplyEntry is what an apartment gets of a product; it lies on its floor from
// on_site until its last day there.
type supplyEntry struct {
	place
	Product     string `json:"product"`
	Quantity    number `json:"quantity"` // sold units
	Weight      number `json:"weight_kg"`
	NeededBy    day    `json:"needed_by"` // not after the apartment's step delivery begins
	Until       day    `json:"until"`
	Lead        int    `json:"lead_days"`         // working days
	Acclimatise int    `json:"acclimatisation_h"` // least hours of the apartment's step acclimatisation
}

type extraEntry struct {
	Description string `json:"description"`
	Per         string `json:"per"`   // job, block, floor, apartment
	Times       int64  `json:"times"` // how many of these there are
	Quantity    number `json:"quantity"`
	UnitCost    number `json:"unit_cost"`
	Amount      number `json:"amount"` // round(times x quantity x unit_cost)
}

// costEntry is one part of the cost; where costs are listed they add up to it.
type costEntry struct {
	Category string `json:"category"`
	Amount   number `json:"amount"`
}

// priceEntry is the price, step by step.
type priceEntry struct {
	PurchaseTaxIsCost bool `json:"purchase_tax_is_cost"`

	Material number `json:"material"` // sum of the orders' net (and tax, when purchase tax is a cost)
	Labour   number `json:"labour"`   // sum of the labour lines
	Other    number `json:"other"`    // sum of the extras

	MaterialContingencyPct number  `json:"material_contingency_pct"`
	LabourContingencyPct   number  `json:"labour_contingency_pct"`
	OtherContingencyPct    number  `json:"other_contingency_pct"`
	MaterialContingency    *number `json:"material_contingency"`
	LabourContingency      *number `json:"labour_contingency"`
	OtherContingency       *number `json:"other_contingency"`
	Contingency            number  `json:"contingency"`

	OverheadPct number `json:"overhead_pct"`
	Overhead    number `json:"overhead"` // of material, labour, other and contingency
	Cost        number `json:"cost"`

	ProfitPct   number `json:"profit_pct"`
	ProfitBasis string `json:"profit_basis"` // on price, on cost
	Step        number `json:"price_step"`   // 0: none
	Profit      number `json:"profit"`       // net - cost
	Net         number `json:"net"`

	TaxPct number `json:"tax_pct"`
	Tax    number `json:"tax"`
	Gross  number `json:"gross"`

	RetentionPct number  `json:"retention_pct"`
	Retention    *number `json:"retention"`

	Margin *number `json:"margin"` // profit / net, 4 decimals: 0.16 is 16 %
	Markup *number `json:"markup"` // profit / cost, 4 decimals
}

// optionEntry is an option priced as a whole job.
type optionEntry struct {
	Option     string `json:"option"`
	Cost       number `json:"cost"`
	Profit     number `json:"profit"`
	Net        number `json:"net"`    // cost + profit
	Margin     number `json:"margin"` // profit / net, 4 decimals
	Hours      number `json:"hours"`
	Packs      number `json:"packs"`
	Difference number `json:"difference"` // net less that of the job
}

// takeoffEntry is a room of an apartment type beside what others measured, areas
// in unit with 4 decimals. A room that the file does not have has the area and
// the price 0, and its price on the takeoff's area is the job's by floor area.
type takeoffEntry struct {
	Type      string `json:"type"`
	Room      string `json:"room"`
	Times     int64  `json:"times"` // apartments of the type
	Unit      string `json:"unit"`  // m2, ft2 or yd2
	Area      number `json:"area"`
	Given     number `json:"takeoff_area"`
	Price     number `json:"price"`            // of the room in all its apartments
	OnTakeoff number `json:"price_on_takeoff"` // round(price x takeoff_area / area)
}

// riskEntry is what the job may cost, played through 10,000 times: costs[i] is
// the cost that i+1 of a thousand runs stayed within, rounded to the minor unit.
//
// The runs draw from the generator PCG-DXSM (M. O'Neill, 128 bits of state, as in
// the package math/rand/v2) with the seeds seed and 0x1a7b111; a draw u is its
// next value's lower 53 bits over 2^53. A run draws once for the hours, once for
// the breakage, and once for each supplier in the order of the orders. With the
// percentages as shares of one it costs, in double precision, terms added from
// the left:
//
//	(other + overhead) + labour x h + sum over suppliers (goods + planks x b) x (1 + u x price_rise)
//
//	h = 1 - F + sqrt(u x W x F)         where u < F / W; F fewer_hours, W = F + more_hours
//	h = 1 + M - sqrt((1 - u) x W x M)   elsewhere; M more_hours; 1 where W is 0
//	b = max(0, u x breakage - breakage_bought)
//
// goods are the nets of a supplier's orders, with their tax where purchase tax is
// a cost; planks those of its lines of kind plank and tile, likewise.
type riskEntry struct {
	Seed        int64       `json:"seed"`
	Fewer       number      `json:"fewer_hours_pct"`
	More        number      `json:"more_hours_pct"`
	Breakage    number      `json:"breakage_pct"`
	PriceRise   number      `json:"price_rise_pct"`
	Spare       number      `json:"breakage_bought_pct"`
	Target      number      `json:"target_margin_pct"`
	Costs       []number    `json:"costs"`                   // rising
	BelowTarget number      `json:"chance_below_target_pct"` // costs above round(net x (1 - target))
	Loss        number      `json:"chance_of_loss_pct"`      // costs above net
	Prices      []riskPrice `json:"prices"`
}

type riskPrice struct {
	Confidence number `json:"confidence_pct"`
	Price      number `json:"price"` // round(cost / (1 - target))
}

// shareEntry is what one room (room_shares, every room once, in the order of
// rooms, then every place of repaired) or one apartment (by_apartment; without apartments one entry a type)
// is charged. Price is the sum of the columns before it, and every column adds
// up to the job's amount.
//
// Every split is by largest remainder: each share is cut down to whole minor
// units, the units left over go to the largest remainders, the earlier room or
// line first; where all weights are 0 they count as equal.
//
//   - Material: an order line costs its net less its part of its rate's discount
//     (by the nets of the lines under the rate), its part of delivery + supplement
//     (by the lines' nets) and, when purchase tax is a cost, its part of each
//     rate's tax (by what it has under the rate: its net less that discount, and its
//     part of the charges where these bear the rate). It is split by uses of the product, or
//     by the rooms' net floor areas where no room uses it.
//   - Labour: a room's lines are its own; others are split over the rooms of the
//     apartment, or of the job, by net floor area.
//   - Other: an extra is split evenly over its jobs, blocks, floors (block and
//     floor) or apartments in the order of rooms, then by net floor area.
//   - Contingency, overhead and profit: by the room's material + labour + other.
type shareEntry struct {
	place
	Material    number  `json:"material"`
	Labour      number  `json:"labour"`
	Other       number  `json:"other"`
	Contingency *number `json:"contingency"` // may be left out of by_apartment,
	Overhead    *number `json:"overhead"`    // like this
	Profit      *number `json:"profit"`      // and this
	Price       number  `json:"price"`
}

// cautionEntry excuses a rule not kept in one row; of two rows with joints too
// near each other that is the upper one. With apartment "" it holds in every
// apartment, without a row in every row.
type cautionEntry struct {
	Code      string  `json:"code"`
	Apartment string  `json:"apartment"`
	Type      string  `json:"type"`
	Room      *string `json:"room"`
	Rule      string  `json:"rule"` // end, stagger, row, line-up, pattern, hole, run
	Row       int     `json:"row"`
	Text      string  `json:"text"`
}

// checkEntry is a check of the program that wrote the file; all must be ok, and
// sides that are plain numbers equal.
type checkEntry struct {
	Name  string `json:"name"`
	OK    bool   `json:"ok"`
	Left  string `json:"left"`
	Right string `json:"right"`
}
