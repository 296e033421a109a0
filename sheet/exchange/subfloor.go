package exchange

import (
	"math/big"
	"strconv"

	"github.com/shopspring/decimal"

	"laybill/estimate"
	"laybill/estimate/measure"
	"laybill/estimate/shape"
	"laybill/estimate/subfloor"
)

// subfloorEntry is the subfloor of a room that is surveyed or says a depth.
type subfloorEntry struct {
	place
	Kind      string              `json:"subfloor"`
	Heated    bool                `json:"heated"`
	Film      string              `json:"film"`
	Readings  [][3]mm             `json:"readings_mm"`
	Triangles [][3]int            `json:"triangles"`
	Group     string              `json:"flatness_group"`
	Checked   int                 `json:"straightedges"`
	Broken    int                 `json:"straightedges_broken"`
	Worst     []straightedgeEntry `json:"worst"`
	Plane     *planeEntry         `json:"plane"`
	Fill      layerEntry          `json:"fill"`
	Ground    layerEntry          `json:"ground"`
	Mean      mm                  `json:"mean_depth_mm"`
	Drying    int                 `json:"drying_days"`
}

type straightedgeEntry struct {
	From      [2]mm `json:"from_mm"`
	To        [2]mm `json:"to_mm"`
	At        [2]mm `json:"at_mm"`
	Distance  mm    `json:"distance_mm"`
	Deviation mm    `json:"deviation_mm"`
	Limit     mm    `json:"limit_mm"`
}

type planeEntry struct {
	Height    mm  `json:"height_mm"`
	RiseX     dec `json:"rise_x_mm_a_m"`
	RiseY     dec `json:"rise_y_mm_a_m"`
	Allowance mm  `json:"allowance_mm"`
}

type layerEntry struct {
	Area   int64 `json:"area_mm2"`
	Volume int64 `json:"volume_mm3"`
	Most   mm    `json:"most_mm"`
}

func subfloors(r *estimate.Result) []subfloorEntry {
	var entries []subfloorEntry
	for i := range r.Subfloor.Rooms {
		room := &r.Subfloor.Rooms[i]
		if room.Surveyed() || room.Room.Spec.LevelBy > 0 {
			entries = append(entries, subfloorOf(room))
		}
	}
	return entries
}

func subfloorOf(r *subfloor.Room) subfloorEntry {
	spec := r.Room.Spec
	e := subfloorEntry{place: placeOf(r.Room), Kind: spec.Subfloor.String(), Heated: spec.Heated, Film: subfloor.FilmFor(spec).String(),
		Readings: [][3]mm{}, Triangles: [][3]int{}, Worst: []straightedgeEntry{}, Group: spec.Flatness.String(), Checked: r.Flatness.Checked, Broken: r.Flatness.Broken,
		Fill: layer(r.Levelling.Fill), Ground: layer(r.Levelling.Ground), Mean: mm(r.MeanDepth()), Drying: r.DryingDays()}
	if !r.Surveyed() {
		volume, _ := strconv.ParseInt(new(big.Rat).Quo(r.AreaDepth(), big.NewRat(int64(measure.SquareMillimetre), 1)).FloatString(0), 10, 64)
		e.Fill = layerEntry{Area: int64(r.Room.Area / measure.SquareMillimetre), Volume: volume, Most: mm(spec.LevelBy)}
		return e
	}
	for _, reading := range r.Readings {
		e.Readings = append(e.Readings, [3]mm{mm(reading.At.X), mm(reading.At.Y), mm(reading.Height)})
	}
	e.Triangles = append(e.Triangles, r.Triangles...)
	for _, edge := range r.Flatness.Worst {
		e.Worst = append(e.Worst, straightedgeEntry{From: pair(edge.From), To: pair(edge.To), At: pair(edge.At), Distance: mm(edge.Distance), Deviation: mm(edge.Deviation), Limit: mm(edge.Limit)})
	}
	if !r.Flatness.Kept() {
		x, y := r.Levelling.Plane.Rise()
		e.Plane = &planeEntry{Height: mm(r.Levelling.Plane.Height), RiseX: dec(decimal.New(x, -3)), RiseY: dec(decimal.New(y, -3)), Allowance: mm(r.Levelling.Allowance)}
	}
	return e
}

func pair(p shape.Point) [2]mm { return [2]mm{mm(p.X), mm(p.Y)} }

func layer(l subfloor.Layer) layerEntry {
	return layerEntry{Area: int64(l.Area / measure.SquareMillimetre), Volume: l.Volume, Most: mm(l.Most)}
}

// testEntry is the moisture tests of one place.
type testEntry struct {
	Place string  `json:"place"`
	Rooms []place `json:"rooms"`
	Area  dec     `json:"area_m2"`
	Count int     `json:"count"`
}

func moistureTests(r *estimate.Result) []testEntry {
	entries := make([]testEntry, len(r.Subfloor.Tests))
	for i, test := range r.Subfloor.Tests {
		entries[i] = testEntry{Place: test.Place, Area: dec(test.Area.Decimal(measure.M2, areaPlaces)), Count: test.Count}
		for _, room := range test.Rooms {
			entries[i].Rooms = append(entries[i].Rooms, placeOf(room))
		}
	}
	return entries
}

// holdEntry is what must be true before its rooms are laid.
type holdEntry struct {
	Matter  string  `json:"matter"`
	Must    string  `json:"must"`
	Decides string  `json:"decides"`
	Days    int     `json:"days"`
	Source  string  `json:"source"`
	Rooms   []place `json:"rooms"`
}

func holdPoints(r *estimate.Result) []holdEntry {
	var entries []holdEntry
	for _, point := range r.Subfloor.HoldPoints() {
		e := holdEntry{Matter: point.Matter.String(), Must: point.Must, Decides: point.Decides, Days: point.Days, Source: point.Source}
		for _, room := range point.Rooms {
			e.Rooms = append(e.Rooms, placeOf(room))
		}
		entries = append(entries, e)
	}
	return entries
}
