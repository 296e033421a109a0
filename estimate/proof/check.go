package proof

import (
	"io"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// SizeLimit is the largest result file that is read, in bytes.
const SizeLimit = 1 << 29

// Check proves a result file: it returns what was checked and whether it holds.
// The error says why the file cannot be read as a result at all: it is no JSON,
// has another schema, more than SizeLimit bytes or numbers that are no lengths,
// amounts or counts.
func Check(r io.Reader) (Report, error) {
	f, err := read(r)
	if err != nil {
		return Report{}, err
	}
	c := newChecker(f)
	c.checkCurrency()
	c.checkRooms()
	c.checkFields()
	c.checkFloors()
	c.checkPools()
	c.checkSharing()
	c.checkTrims()
	c.checkLengths()
	c.checkRepairs()
	c.checkMaterials()
	c.checkPacks()
	c.checkSubfloors()
	c.checkTests()
	c.checkQuantities()
	c.checkTerms()
	c.checkOrders()
	c.checkAtOnce()
	c.checkOrderDates()
	c.checkLabour()
	c.checkProgramme()
	c.checkDeliveries()
	c.checkExtras()
	c.checkPrice()
	c.checkShares()
	c.checkOptions()
	c.checkTakeoff()
	c.checkRisk()
	c.checkOwnChecks()
	return c.finish(), nil
}

// checker holds the file, what is known of it and the claims so far.
type checker struct {
	f      *file
	report Report
	claims []*tally

	minor     int32        // decimals of the currency
	places    []*roomEntry // what costs are charged to: the rooms, then the places of repairs
	repairs   map[*roomEntry][]*repairEntry
	rooms     map[roomName][]*roomEntry
	floorArea map[*roomEntry]int64 // net floor in squares of 1/320 mm
	cautions  map[excuse][]*cautionEntry
	floors    map[string]*floor  // by layout id
	racks     map[poolName]int64 // rooms with boards of random lengths by pool; nil before they are counted
	subfloors map[*roomEntry]*subfloorEntry
	sizes     map[string]plankSize // by product; nil before they are read
	sawn      map[*floor]saw
	bags      map[*roomEntry]*big.Rat  // that the lines of a room take
	waste     map[*roomEntry]*leftOver // to take away; a room is not there where it is not known
	inPattern *tally                   // of blocks
	steps     int                      // work left for sweeps
}

type roomName struct{ apartment, room string }

// excuse is what cautions are found by; the apartment is "" for all of them.
type excuse struct{ apartment, room, rule string }

func newChecker(f *file) *checker {
	c := &checker{
		f:         f,
		repairs:   map[*roomEntry][]*repairEntry{},
		rooms:     map[roomName][]*roomEntry{},
		floorArea: map[*roomEntry]int64{},
		cautions:  map[excuse][]*cautionEntry{},
		floors:    map[string]*floor{},
		sawn:      map[*floor]saw{},
		bags:      map[*roomEntry]*big.Rat{},
		steps:     sweepSteps,
	}
	for _, list := range [][]roomEntry{f.Rooms, f.Repaired} {
		for i := range list {
			room := &list[i]
			name := roomName{room.Apartment, room.Room}
			c.rooms[name] = append(c.rooms[name], room)
			c.places = append(c.places, room)
		}
	}
	c.gatherRepairs()
	for _, list := range [][]cautionEntry{f.Cautions, f.Problems} {
		for i := range list {
			if list[i].Room != nil {
				e := excuse{list[i].Apartment, *list[i].Room, list[i].Rule}
				c.cautions[e] = append(c.cautions[e], &list[i])
			}
		}
	}
	return c
}

// claim opens a claim; claims are reported in the order they were opened.
func (c *checker) claim(name string) *tally {
	t := &tally{name: name}
	c.claims = append(c.claims, t)
	return t
}

// finish gathers the claims.
func (c *checker) finish() Report {
	for _, t := range c.claims {
		c.report.Claims = append(c.report.Claims, t.claim())
	}
	return c.report
}

// excused tells whether an entry of the file names the room, the rule and the
// row; row 0 is the room as a whole.
func (c *checker) excused(room *roomEntry, rule string, row int) bool {
	for _, apartment := range slices.Compact([]string{room.Apartment, ""}) {
		for _, e := range c.cautions[excuse{apartment, room.Room, rule}] {
			if (e.Type == "" || e.Type == room.Type) && (e.Row == 0 || e.Row == row) {
				return true
			}
		}
	}
	return false
}

// roomAt is the room that an entry names, nil when there is none.
func (c *checker) roomAt(p place) *roomEntry {
	if p.Room == nil {
		return nil
	}
	for _, room := range c.rooms[roomName{p.Apartment, *p.Room}] {
		if p.Type == "" || p.Type == room.Type {
			return room
		}
	}
	return nil
}

// sign names a room in messages.
func (r *roomEntry) sign() string {
	apartment := r.Apartment
	if apartment == "" {
		apartment = r.Type
	}
	if apartment == "" {
		return r.Room
	}
	return apartment + " / " + r.Room
}

// sign names a place in messages.
func (p place) sign() string {
	room := roomEntry{Apartment: p.Apartment, Type: p.Type, Room: "(no room)"}
	if p.Room != nil {
		room.Room = *p.Room
	}
	return room.sign()
}

// checkOwnChecks looks at the checks that the file brings along.
func (c *checker) checkOwnChecks() {
	t := c.claim(claimOwnChecks)
	for _, check := range c.f.Checks {
		t.want(check.OK, check.Name, check.Left, check.Right, "the file's own check does not hold")
		left, err := decimal.NewFromString(check.Left)
		if err != nil {
			continue
		}
		right, err := decimal.NewFromString(check.Right)
		t.want(err == nil && left.Equal(right), check.Name, check.Left, check.Right, "the two sides differ")
	}
}

// Names of the claims.
const (
	claimRooms      = "rooms: named once, area and perimeter as drawn"
	claimMirror     = "rooms: mirrored rooms are mirror images"
	claimFields     = "rooms: fields cover the floor once"
	claimLayouts    = "floors: a layout's rooms have one floor"
	claimPieces     = "floors: pieces are numbered by row and place"
	claimCover      = "floors: covered once inside the gap, nowhere outside"
	claimFloorArea  = "floors: pieces add up to the floor inside the gap"
	claimPoints     = "floors: random points lie in exactly one piece"
	claimHoles      = "floors: fixtures inside a piece are named"
	claimRun        = "floors: no field longer than the longest run"
	claimEnd        = "joints: least end piece"
	claimStagger    = "joints: least stagger"
	claimLineUp     = "joints: not in line two rows apart"
	claimPattern    = "joints: in the product's pattern"
	claimBands      = "rows: bands as wide as the plank"
	claimRow        = "rows: least width of first and last"
	claimBlocks     = "blocks: pieces lie in the blocks of the pattern"
	claimRacked     = "rows: boards of random lengths, at least and at most"
	claimInPlank    = "planks: pieces lie in their plank"
	claimKerf       = "planks: pieces apart by the kerf"
	claimHand       = "planks: factory ends and edges meet"
	claimStock      = "planks: each used, counted once in its pool"
	claimSharing    = "planks: off-cuts shared as far as the job says"
	claimPlankBound = "planks: lower bound proven"
	claimBars       = "trims: cuts and kerf fit the bar"
	claimBarBound   = "trims: lower bound proven"
	claimRuns       = "trims: runs less openings, with what ends add"
	claimCuts       = "trims: every piece is cut once"
	claimRepairs    = "repairs: planks for every piece beyond the stock"
	claimAccount    = "material: bought is the sum of its parts"
	claimLaid       = "material: laid is what lies in the rooms"
	claimBought     = "material: bought is what is ordered"
	claimPacks      = "material: packs and spares of every place"
	claimSubfloors  = "subfloor: compound and grinding fit the readings"
	claimTests      = "subfloor: moisture tests by area"
	claimQuantities = "quantities: as measured in the rooms"
	claimWaste      = "waste: lifted, cut off and unpacked in the rooms"
	claimTerms      = "terms: orders, wages and extras as agreed"
	claimLines      = "orders: lines"
	claimOrders     = "orders: sums, delivery and tax"
	claimAtOnce     = "orders: in parts and at once"
	claimOrderDates = "orders: dated by their deliveries"
	claimLabour     = "labour: hours and cost"
	claimLearning   = "labour: repeated apartments by the learning curve"
	claimCrews      = "programme: no crew in two places"
	claimDays       = "programme: hours are worked on working days"
	claimSteps      = "programme: steps in their order, waiting kept"
	claimHours      = "programme: all hours of the labour"
	claimDeliveries = "deliveries: in time, and no more than is ordered"
	claimStorage    = "deliveries: within a floor's storage"
	claimExtras     = "extras: amounts"
	claimLadder     = "price: every step from cost to gross"
	claimShares     = "shares: rooms are charged by the rules"
	claimShareSums  = "shares: rooms add up to the price"
	claimApartments = "shares: apartments add up to the price"
	claimOptions    = "options: price, margin and difference"
	claimTakeoff    = "takeoff: rooms compared, prices by area"
	claimRisk       = "risk: chances and prices follow from the costs"
	claimAmounts    = "money: whole minor units of the currency"
	claimOwnChecks  = "checks: the file's own"
)
