package out

import (
	"fmt"

	"laybill/estimate/job"
	"laybill/estimate/measure"
)

// layerRules are how layers and trims are counted as laid, for the products and
// measures that the job uses.
func (b *book) layerRules() []rule {
	size := func(l measure.Length) string { return b.cut(l) + b.lengthSuffix() }
	var rules []rule
	for _, p := range b.distinctProducts() {
		switch {
		case p.Kind == job.Underlay:
			rules = append(rules, rule{p.Code, fmt.Sprintf("Rows of %s side by side along the room's longer side, cut from lengths of %s; a narrow last row is cut from one piece sawn along, no part under %s.",
				size(p.Width), size(p.Length), size(p.LeastEnd)), "", tradePractice})
		case p.Kind == job.Trim && p.CornerCut != job.Squared:
			rules = append(rules, rule{p.Code, cornerWords(p.CornerCut) + " An outside mitre adds the thickness x the tangent of half the corner's turn; an inside mitre adds nothing.",
				fmt.Sprintf("thickness %s, scribing allowance %s", size(p.Thickness), size(p.Scribing)), "geometry of a mitre; " + productRow})
		case p.Kind == job.Tile && p.Notch > 0:
			rules = append(rules, rule{p.Code, "Bed of adhesive = half the trowel's notch + the coat on the back.", fmt.Sprintf("notch %s, back %s", size(p.Notch), size(p.BackCoat)), "square notches as wide as the teeth, common practice; " + productRow})
		}
		if p.Kind == job.Tile && p.JointWidth > 0 {
			rules = append(rules, rule{p.Code, "Grout = area x (length + width) / (length x width) x thickness x joint.", "joint " + size(p.JointWidth), "formula of makers of grout; " + productRow})
		}
	}
	for _, old := range b.result.Job.OldFloors {
		rules = append(rules, rule{"Old floors", old.Name + " is lifted and taken away.", fmt.Sprintf("%s thick, %s kg a m2", size(old.Thickness), old.Weight), "Old floors sheet"})
	}
	if b.countsWaste() {
		rules = append(rules, rule{"Waste", "Waste to take away = the lifted old floor + what the planks of the layout leave over, shared to the rooms by laid area; of coverings counted by area, their waste per cent; " +
			"off-cuts of trims, film and underlay that are not kept, width x thickness, shared by the length cut; and the packing stated in Products, by the sold units used. What has no width, thickness or packing there is not counted. " +
			"Its Factor in the build-up is how much more room it takes loose.", "", "Factor 1.5 to 2, common practice; " + productRow})
	}
	return rules
}

func cornerWords(cut job.CornerCut) string {
	if cut == job.Scribed {
		return "Right ends go square into inside corners, left ends are scribed to them; outside corners are mitred."
	}
	return "Inside and outside corners are mitred."
}

func (b *book) countsWaste() bool {
	for _, line := range b.result.Takeoff.Lines {
		if line.Measure.OfWaste() {
			return true
		}
	}
	return false
}

// distinctProducts are the job's products, each once, in the order of their
// quantities.
func (b *book) distinctProducts() []*job.Product {
	var all []*job.Product
	seen := map[*job.Product]bool{nil: true}
	for _, line := range b.result.Takeoff.Lines {
		if !seen[line.Product] {
			seen[line.Product] = true
			all = append(all, line.Product)
		}
	}
	return all
}
