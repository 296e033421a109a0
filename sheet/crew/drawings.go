package crew

import (
	"fmt"
	"strings"
	"unicode"

	"laybill/estimate/building"
	"laybill/estimate/job"
)

// Likeness is equal for rooms that are drawn alike.
type Likeness struct {
	spec     *job.Room
	mirrored bool
	layout   string
}

// Likeness tells the room from those that are drawn differently.
func (l *Lists) Likeness(room *building.Room) Likeness {
	return Likeness{room.Spec, room.Apartment.Mirrored, l.result.RoomFloor[room.Index].Layout}
}

// Drawing is a room that is drawn differently from all others, with a name for
// its file.
type Drawing struct {
	Room *building.Room
	File string // without extension
}

// Drawings lists the drawings of all plans, each once, in the order of plans
// and rooms. Files are named "plan - room".
func (l *Lists) Drawings() []Drawing {
	var drawings []Drawing
	known := map[Likeness]bool{}
	names := fileNames{}
	for _, p := range l.Plans() {
		for _, room := range p.Rooms {
			if alike := l.Likeness(room); !known[alike] {
				known[alike] = true
				drawings = append(drawings, Drawing{room, names.unique(p.Name() + " - " + room.Spec.Name)})
			}
		}
	}
	return drawings
}

// fileNames are the names given so far, without regard to capitals, which some
// file systems do not tell apart.
type fileNames map[string]bool

// longestFileName is in bytes. Systems allow 255; the rest is for an extension
// and for the temporary name under which a file is written.
const longestFileName = 180

// unique is the wanted name without what some system does not allow, cut to
// length, and numbered when it is taken.
func (n fileNames) unique(wanted string) string {
	base := allowedFile(wanted)
	name := cutFile(base, longestFileName)
	for i := 2; n[foldFile(name)]; i++ {
		tail := fmt.Sprintf(" (%d)", i)
		name = cutFile(base, longestFileName-len(tail)) + tail
	}
	n[foldFile(name)] = true
	return name
}

func foldFile(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// allowedFile puts a hyphen for the characters that some system keeps for
// itself, and takes away those that do not show. A name that joins a plan and
// a room is never one that is kept for a device.
func allowedFile(wanted string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(`<>:"/\|?*`, r):
			return '-'
		case unicode.IsControl(r) || r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, wanted)
	return strings.TrimLeft(strings.TrimRight(name, ". "), ". ")
}

func cutFile(name string, most int) string {
	if len(name) <= most {
		return name
	}
	end := 0
	for i := range name {
		if i > most {
			break
		}
		end = i
	}
	return strings.TrimRight(name[:end], ". ")
}
