package in

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/estimate/problem"
	"laybill/estimate/shape"
)

// roomNames is the rooms of the job by their type and name.
type roomNames struct {
	types    []string // as first written, in the order of the table
	spelling map[string]string
	first    map[string]problem.Ref
	rooms    map[roomKey]*roomEntry
	byName   map[string][]*roomEntry
	list     []string
	sound    bool           // the table has rows
	counts   map[string]int // rows of Rooms with each name
}

type roomKey struct{ kind, name string }

// roomEntry is a room with the row it came from and its walls as they are
// numbered; a room whose shape is not known has none.
type roomEntry struct {
	room  *job.Room
	row   row
	walls []shape.Wall // of the outline
	legs  shape.Ring   // corners of the outline as written, when it was
}

func (r *reader) readRooms() {
	r.rooms = &roomNames{sound: r.filled("rooms"), spelling: map[string]string{}, first: map[string]problem.Ref{}, rooms: map[roomKey]*roomEntry{}, byName: map[string][]*roomEntry{}}
	corners := r.readCorners()
	r.each("rooms", func(r row) { r.room(corners) })
	r.checkCornersUsed(corners)
	r.readOpenings()
	r.readFixtures()
}

// room reads a row of Rooms.
func (r row) room(corners *cornerTable) {
	typed, typeState := read(r, "type", asText)
	if typeState != given {
		typed = "" // its default is a remark, not a name
	}
	room := &job.Room{Ref: r.record("room"), Type: r.rooms.typeNamed(typed, r), Name: r.name("room"),
		LevelBy: r.length("level"), Doors: r.whole("doors", 100), Heated: r.yes("heated"),
		Moisture: r.number("moisture"), Steps: r.whole("steps", 10_000), StepWidth: r.length("stepwidth"), Note: r.text("note")}
	room.LiftOld, room.OldFloor = r.oldFloor()
	room.Subfloor, room.Flatness = r.subfloor(), r.flatness()
	var state state
	room.BuildUp, state = refer(r, "buildup", r.buildUps)
	room.Skirting = r.skirting(room.BuildUp)
	entry := &roomEntry{room: room, row: r}
	r.shape(entry, corners)
	room.Direction = r.direction(entry)
	if room.Name == "" {
		return
	}
	// A room whose build-up is not known is still there for its openings.
	if r.rooms.add(r, entry) && state == given {
		r.job.Rooms = append(r.job.Rooms, room)
	}
}

// subfloor and flatness are the job's where the room does not name its own.
func (r row) subfloor() job.Subfloor {
	if kind, state := r.choice("subfloor"); state == given {
		return job.Subfloor(kind)
	}
	return r.settings.subfloor
}

func (r row) flatness() job.FlatnessGroup {
	if group, state := r.choice("flatness"); state == given {
		return job.FlatnessGroup(group)
	}
	return r.job.Settings.Flatness
}

// typeNamed is an apartment type in the spelling it was first written in.
func (n *roomNames) typeNamed(name string, r row) string {
	key := nameKey(name)
	if _, known := n.spelling[key]; !known {
		n.spelling[key] = name
		n.first[key] = r.at("type")
		if r.part.columns["type"] == 0 || name == "" {
			n.first[key] = r.at("room")
		}
		n.types = append(n.types, name)
	}
	return n.spelling[key]
}

// add makes a room known; two rooms of a type must not share a name.
func (n *roomNames) add(r row, entry *roomEntry) bool {
	key := roomKey{nameKey(entry.room.Type), nameKey(entry.room.Name)}
	if earlier, twice := n.rooms[key]; twice {
		where := ""
		if entry.room.Type != "" {
			where = " in apartment type " + quote(entry.room.Type)
		}
		r.problems.add("", problem.Problem{Code: problem.NameRepeated, At: r.at("room"), Also: []problem.Ref{earlier.room.Ref},
			Found: fmt.Sprintf("%s a second time%s", quote(entry.room.Name), where), Want: "each room of a type once", Fix: "rename one of them, such as Bed 1 and Bed 2"})
		return false
	}
	n.rooms[key] = entry
	n.byName[key.name] = append(n.byName[key.name], entry)
	n.list = append(n.list, entry.room.Name)
	return true
}

// skirting reads whether a room gets skirting: by default when its build-up
// has one.
func (r row) skirting(buildUp *job.BuildUp) bool {
	yes, state := read(r, "skirting", asYesNo)
	if state != blank || buildUp == nil {
		return yes
	}
	for _, line := range buildUp.Lines {
		if line.Measure == job.SkirtingLength {
			return true
		}
	}
	return false
}

// placed finds the room that a row of another table belongs to; nil when it
// is not known. A type may be left out when only one room has the name.
func (r row) placed() *roomEntry {
	typed, typeState := read(r, "type", asText)
	name, state := read(r, "room", asText)
	if state != given || typeState == unknown {
		return nil
	}
	if entry := r.rooms.rooms[roomKey{nameKey(typed), nameKey(name)}]; entry != nil {
		return entry
	}
	same := r.rooms.byName[nameKey(name)]
	if typed == "" && len(same) == 1 {
		return same[0]
	}
	switch {
	case len(same) > 0:
		r.wrongType(typed, name, same)
	case r.rooms.nameCount(r, name) == 0: // else its row could not be read, which is said there
		r.unknownName("room", name, "room", "Rooms", r.rooms.list, r.rooms.sound)
	}
	return nil
}

func (r row) wrongType(typed, name string, same []*roomEntry) {
	var types []string
	for _, entry := range same {
		types = append(types, entry.room.Type)
	}
	found := fmt.Sprintf("%s of type %s", quote(name), quote(typed))
	if typed == "" {
		found = quote(name) + " without a type"
	}
	p := problem.Problem{Code: problem.NameUnknown, At: r.at("type"), Found: found, Want: "the type of a room " + quote(name) + ": " + orList(types), Fix: "write the apartment type of the room"}
	if r.part.columns["type"] == 0 {
		p.At = r.at("room")
	}
	r.problems.add(r.part.table.Key+" "+typed+" "+nameKey(name), p)
}

// direction reads the laying direction.
func (r row) direction(entry *roomEntry) job.Direction {
	direction, _ := read(r, "direction", func(in input) (job.Direction, *fault) { return parseDirection(in, entry) })
	return direction
}

// parseDirection reads along length, along width, a number of degrees, toward
// light with the wall of the light, or auto.
func parseDirection(in input, entry *roomEntry) (job.Direction, *fault) {
	words := foldedWords(in.text)
	text := strings.Join(words, " ")
	angle := func(a shape.Angle) (job.Direction, *fault) { return job.Direction{Choice: job.AtAngle, Angle: a}, nil }
	switch text {
	case "along length", "length", "lengthway", "lengthwise", "along the length":
		return angle(0)
	case "along width", "width", "widthway", "crosswise", "along the width":
		return angle(shape.QuarterTurn)
	case "auto", "automatic", "any", "free":
		return job.Direction{Choice: job.Auto}, nil
	case "longer side", "along longer side", "along the longer side":
		return job.Direction{Choice: job.LongerSide}, nil
	}
	if len(words) == 3 && (words[0] == "toward" || words[0] == "to") && words[1] == "light" {
		return towardLight(words[2], entry)
	}
	degrees := strings.TrimSpace(strings.NewReplacer("°", "", "degrees", "", "degree", "", "deg", "").Replace(strings.ToLower(in.text)))
	in.text = degrees
	d, flaw := asNumber(in)
	if flaw != nil {
		return job.Direction{}, &fault{code: flaw.code, want: flaw.want, fix: "write one of the ways, such as toward light: N"}
	}
	thousandths := d.Shift(3)
	if !thousandths.IsInteger() || d.Abs().Cmp(decimal.New(360, 0)) > 0 {
		return job.Direction{}, outOfRange("degrees from -360 to 360, to a thousandth")
	}
	return angle(shape.Angle(thousandths.IntPart()))
}

// towardLight turns the planks square to the wall that the light comes from.
func towardLight(wall string, entry *roomEntry) (job.Direction, *fault) {
	switch compass(wall) {
	case "N", "S":
		return job.Direction{Choice: job.AtAngle, Angle: shape.QuarterTurn}, nil
	case "E", "W":
		return job.Direction{Choice: job.AtAngle, Angle: 0}, nil
	}
	number, err := strconv.Atoi(wall)
	if err != nil {
		return job.Direction{}, unreadable("name the wall of the light: toward light: N")
	}
	if len(entry.walls) == 0 {
		return job.Direction{Choice: job.LongerSide}, nil // the shape is not known, which is said there
	}
	if number < 1 || number > len(entry.walls) {
		return job.Direction{}, &fault{code: problem.OpeningWallUnknown, want: fmt.Sprintf("a leg from 1 to %d", len(entry.walls)), fix: "correct the number of the leg"}
	}
	return job.Direction{Choice: job.AtAngle, Angle: squareTo(entry.walls[number-1])}, nil
}

// squareTo is the direction square to a wall, in [0, 180) degrees.
func squareTo(w shape.Wall) shape.Angle {
	dx, dy := float64(w.To.X-w.From.X), float64(w.To.Y-w.From.Y)
	along := shape.Angle(math.Round(math.Atan2(dy, dx) * 180 / math.Pi * 1000))
	return (along + 3*shape.QuarterTurn) % (2 * shape.QuarterTurn)
}

// compass is the letter of a side of the compass, "" for other words.
func compass(word string) string {
	switch strings.ToLower(strings.TrimSpace(word)) {
	case "n", "north":
		return "N"
	case "e", "east":
		return "E"
	case "s", "south":
		return "S"
	case "w", "west":
		return "W"
	}
	return ""
}

func (r *reader) readFixtures() {
	r.each("fixtures", func(r row) {
		entry := r.placed()
		x, xState := read(r, "x", asCoordinate)
		y, yState := read(r, "y", asCoordinate)
		length, lengthState := read(r, "length", asLength)
		width, widthState := read(r, "width", asLength)
		under := r.yes("under")
		at := r.record("room")
		if entry == nil || xState == unknown || yState == unknown || lengthState == unknown || widthState == unknown {
			return
		}
		if length == 0 || width == 0 {
			r.doubt(problem.ValueOutOfRange, zeroOf(length, "length", "width"), "a length above 0", "correct the size, or delete the row")
			return
		}
		if length > shape.Limit || width > shape.Limit || max(x, -x) > shape.Limit || max(y, -y) > shape.Limit {
			r.doubt(problem.ValueOutOfRange, "x", "a place and size under 1 km", "correct the number, or its unit")
			return
		}
		box := shape.Box{X0: x, Y0: y, X1: x + length, Y1: y + width}
		entry.room.Fixtures = append(entry.room.Fixtures, job.Fixture{Ref: at, Box: box, FloorUnder: under})
	})
}

// zeroOf is the key of the side that is nought, the first when both are.
func zeroOf(length measure.Length, first, second string) string {
	if length == 0 {
		return first
	}
	return second
}
