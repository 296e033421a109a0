package out

import (
	"fmt"
	"strings"

	"laybill/estimate/fields"
	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/sheet/crew"
)

// fieldRules say how floors longer than their covering may run are divided;
// none in a job that has no such floor.
func (b *book) fieldRules() []rule {
	size := func(l measure.Length) string { return b.cut(l) + b.lengthSuffix() }
	rooms, parts := 0, 0
	var longest []string
	known := map[*job.Product]bool{}
	for _, room := range b.result.Building.Rooms {
		if len(room.Fields) < 2 {
			continue
		}
		rooms++
		parts += len(room.Fields)
		if product := room.Spec.BuildUp.Covering().Product; !known[product] {
			known[product] = true
			longest = append(longest, product.Code+" "+size(product.LongestRun))
		}
	}
	through := b.throughRules()
	if rooms == 0 {
		return through
	}
	return append(through, []rule{
		{"Fields", "A floor that runs further, along or across the planks, than its covering may is laid in fields: " + strings.Join(longest, ", ") + ". Between two fields stands an expansion profile from wall to wall, with the expansion gap on both sides of it.",
			crew.Counted(rooms, "room") + " in " + crew.Counted(parts, "field"), productRow + "; 8 to 13 m are usual, makers' guidance; the maker's instructions rule"},
		{"Fields", fmt.Sprintf("Profiles are placed for the fewest fields, then where they are shortest, at necks and doorways, then at inner corners, else in equal parts. No field is thinner than %s where the floor allows it.", size(fields.LeastField)),
			"", "common practice; least field from memory"},
	}...)
}

// throughRules name the rooms that are laid through openings.
func (b *book) throughRules() []rule {
	var names []string
	for _, room := range b.result.Job.Rooms {
		if room.Whole {
			names = append(names, strings.Join(notEmpty(room.Type, room.Name), " "))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []rule{{"Laid through", "Rooms laid through an opening are one floor with the floor in the wall between them, measured and priced as one: " + crew.SomeNames(names) + ". The sides of the opening have no skirting, unless it turns in from both rooms.",
		crew.Counted(len(names), "floor"), "Openings sheet"}}
}
