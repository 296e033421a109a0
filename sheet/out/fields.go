package out

import (
	"fmt"
	"strings"

	"laybill/estimate/fields"
	"laybill/estimate/job"
	"laybill/estimate/measure"
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
	if rooms == 0 {
		return nil
	}
	return []rule{
		{"Fields", "A floor that runs further, along or across the planks, than its covering may is laid in fields: " + strings.Join(longest, ", ") + ". Between two fields stands an expansion profile from wall to wall, with the expansion gap on both sides of it.",
			fmt.Sprintf("%d rooms in %d fields", rooms, parts), productRow + "; 8 to 13 m are usual, makers' guidance; the maker's instructions rule"},
		{"Fields", fmt.Sprintf("Profiles are placed for the fewest fields, then where they are shortest, at necks and doorways, then at inner corners, else in equal parts. No field is thinner than %s where the floor allows it.", size(fields.LeastField)),
			"", "common practice; least field from memory"},
	}
}
