package out

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/labour"
	"laybill/estimate/measure"
	"laybill/estimate/money"
	"laybill/estimate/quantity"
	"laybill/sheet/crew"
)

// rule is one line of the basis: what was reckoned with, and where it is from.
type rule struct {
	about, says, value, source string
}

// Sources that recur.
const (
	ourDefinition = "definition of this estimate"
	tradePractice = "common practice; confirm with the maker's instructions"
	jobSheet      = "Job sheet, or its default"
	productRow    = "Products sheet, or its default"
)

// basis writes every rule, default and assumption with its source.
func (b *book) basis(sheet string, crowded int) {
	wrapped := func(s string) cell { return text(s).in(plainStyle.wrapped()) }
	l := list[rule]{
		title:     "Basis",
		note:      "What this estimate rests on. Whoever prices or lays from it should agree with every line.",
		landscape: true,
		columns: []column[rule]{
			{heading: "About", width: 20, cell: func(r rule, _ int) cell { return wrapped(r.about).strong() }},
			{heading: "Rule", width: 70, cell: func(r rule, _ int) cell { return wrapped(r.says) }},
			{heading: "Value", width: 26, cell: func(r rule, _ int) cell { return wrapped(r.value) }},
			{heading: "Source", width: 40, cell: func(r rule, _ int) cell { return wrapped(r.source) }},
		},
	}
	rules := append(b.generalRules(), b.termRules()...)
	rules = append(rules, b.carryingRules()...)
	rules = append(rules, b.learningRules()...)
	rules = append(rules, b.productRules()...)
	rules = append(rules, b.fieldRules()...)
	rules = append(rules, b.layerRules()...)
	rules = append(rules, b.repairRules()...)
	rules = append(rules, b.choiceRules()...)
	rules = append(rules, b.subfloorRules()...)
	rules = append(rules, b.roomRules()...)
	rules = append(rules, b.programmeRules()...)
	if crowded > 0 {
		rules = append(rules, rule{"Workbook", "Cut lists of plans beyond the first stand one after another on one sheet.", crew.Counted(crowded, "plan"), ourDefinition})
	}
	l.write(b, sheet, rules)
}

func (b *book) generalRules() []rule {
	s := b.result.Job.Settings
	per := func(d decimal.Decimal) string { return d.String() + " %" }
	return []rule{
		{"Money", money.RoundingRule, s.Currency.Code + ", " + fmt.Sprint(s.Currency.Minor) + " decimals", "ISO 4217 minor units; EN 16931 for line and tax sums"},
		{"Money", "Totals are sums of rounded lines. Costs that rooms share are split by largest remainder, ties to the earlier apartment and room, so that the rooms add up to the job.", "", ourDefinition},
		{"Money", "What an order line costs, with its part of delivery and supplement by the lines' nets, goes to all rooms that use the product by the amount they use, whichever part of the building it was ordered for: packs opened for one part are used up in the next.", "", ourDefinition},
		{"Money", "Order line = quantity x units per sold unit x price x (1 - discount). Delivery is charged below the free limit, a supplement up to the minimum order; both bear the job's tax.", "", "Suppliers and Products sheets"},
		{"Money", "Tax of an order is taken once on the sum of each rate.", s.TaxName + " " + per(s.TaxPercent), "EN 16931, rule BR-CO-17"},
		{"Money", "Tax on purchases is a cost.", yesOrNo(s.PurchaseTaxIsCost), jobSheet},
		{"Ladder", "Material + labour + other costs; contingency on each; overhead on all of that; their sum is the cost.", fmt.Sprintf("contingency %s, %s, %s; overhead %s", per(s.MaterialContingency), per(s.LabourContingency), per(s.OtherContingency), per(s.OverheadPercent)), jobSheet},
		{"Ladder", profitWords(s.ProfitBasis), per(s.ProfitPercent) + " " + s.ProfitBasis.String(), jobSheet},
		{"Ladder", "The price goes to the nearest multiple of the price step; below cost, to the first that covers it.", stepWords(s), jobSheet},
		{"Ladder", "Retention is shown, not deducted.", per(s.RetentionPercent), jobSheet},
		{"Labour", "Hours = quantity x hours per unit, rounded to 0.01 h; least hours hold for the operation's total in one apartment. Cost = hours x wage x (1 + burden).", "", "Operations and Trades sheets"},
		{"Labour", "Overtime: hours of a day beyond those at the plain wage are paid at the trade's overtime factor, with its burden; every hour bears its part of the premium.", overtimeWords(b.overtime()), "Job sheet; as in 29 CFR 778.110, where the premium is paid for the hours beyond the limit only"},
		{"Laying", "Every covering of planks is laid piece by piece. Planks are neither turned nor flipped; of a plank with handed ends, a starter keeps the far factory end and an end piece the near one.", "", tradePractice},
		{"Laying", "Off-cuts and ripped strips are used again within", s.Sharing.String(), jobSheet},
		{"Laying", "Joints in line two rows apart are kept apart where that costs no plank. In the pattern half every second row is alike by nature.", "50 mm", tradePractice},
		{"Laying", "The laying direction is as the room says, else along its longer side.", "", tradePractice},
		{"Waste", "Waste = planks cut x plank area / laid area - 1, counted from the layout and never assumed.", "", ourDefinition},
		{"Spares", "Breakage and attic stock are each rounded up to whole planks where packs are opened, and bought on top.", fmt.Sprintf("breakage %s, attic stock %s", per(s.BreakagePercent), per(s.AtticPercent)), jobSheet},
		{"Packs", "Needs are rounded up to whole sold units where packs are opened, then to the order step and the minimum quantity.", "by " + s.PackRounding.String(), jobSheet},
		{"Deliveries", "Each supplier gets an order for each part of the building, with its own date, delivery charge, free limit, minimum order, price breaks, order step and minimum quantity. " +
			"A plank, bar or roll comes with the first part that lays a piece of it; packs opened for one part are used up in the next, so that no pack more is bought than at once.", "by " + s.Deliveries.String(), jobSheet},
		{"Deliveries", "Needed by: the first day on which the programme needs any of the order's goods on site, before laying by the time that they must lie in the rooms. Order by: the longest lead time of those goods in working days before.", "", "sheet Programme; Products and Suppliers sheets"},
		{"Doors", "Doors that are only counted are as wide as", b.cut(s.DoorWidth) + b.lengthSuffix(), jobSheet},
		{"Areas", "Net floor = outline less fixtures. The billed area leaves voids in as the measuring rule says; purchases and hours never do.", s.MeasuringRule.String(), "ATV DIN 18365 (0.10 m2), SMM7 (0.50 m2); NRM2 (1.00 m2) from memory"},
		{"Skirting", "Wall runs less the room's openings, and the returns into them; a run longer than its stock is joined from the fewest parts, none under the trim's least end piece; how it is split is chosen with the cutting, to save stock.", "", tradePractice},
		{"Cuts", "A saw cut stands between two pieces of a plank or bar, not at its factory ends.", "kerf " + b.cut(s.DefaultKerf) + b.lengthSuffix() + " where the product says nothing", "2 to 4 mm, common practice"},
		{"Shown", "Cut lengths are rounded to the tape so that the pieces of a row add up to its length.", b.crew.UnitWords(), ourDefinition},
		{"Workbook", "Give the client the Bid as a print or PDF: the other sheets of this workbook show cost and margin.", "", ourDefinition},
		{"Safety", "Cautions appear only where the job gives cause. They never say that something is safe: licensed practice and the local code decide.", "", "see each caution"},
	}
}

// carryingRules say how carrying is counted, where a line is measured by it.
func (b *book) carryingRules() []rule {
	s := b.result.Job.Settings
	if !slices.ContainsFunc(b.result.Takeoff.Lines, func(l quantity.Line) bool { return l.Measure == job.Carried }) {
		return nil
	}
	return []rule{{"Labour", "Carrying: packs and bags x storeys between the apartment's floor and the entrance floor, up or down. In a lift they count one storey, however high.",
		fmt.Sprintf("entrance floor %d, lift %s", s.EntranceFloor, yesOrNo(s.Lift)), jobSheet}}
}

// learningRules say how hours fall with practice, where they do.
func (b *book) learningRules() []rule {
	s := b.result.Job.Settings
	if !labour.Learned(s) {
		return nil
	}
	return []rule{{"Labour", "Learning: the n-th apartment of a type, in the order of the Apartments sheet, takes the hours of the first x n^(log2 of the per cent), rounded to 4 decimals; mirrored ones count with the others. " +
		"It holds for operations that are learned, not for repairs and work of the whole job, and least hours stay.", s.LearningPercent.String() + " % for every doubling",
		"Job and Operations sheets; the unit form of the learning curve (J. R. Crawford), from memory. Take a rate from your own jobs."}}
}

func overtimeWords(o labour.Overtime) string {
	if o.Hours.IsZero() {
		return "none"
	}
	return fmt.Sprintf("%s of %s hours a day", o.Hours, o.Day)
}

func yesOrNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

func profitWords(basis job.ProfitBasis) string {
	if basis == job.OnCost {
		return "Profit is a markup: price = cost x (1 + per cent)."
	}
	return "Profit is a margin: price = cost / (1 - per cent)."
}

func stepWords(s job.Settings) string {
	if s.PriceStep.Sign() <= 0 {
		return "none"
	}
	return s.PriceStep.String() + " " + s.Currency.Code
}

func (b *book) lengthSuffix() string {
	if b.imperial() {
		return ""
	}
	return " mm"
}

// productRules are the limits that each product laid or cut brings.
func (b *book) productRules() []rule {
	var rules []rule
	for _, p := range b.usedProducts() {
		size := func(l measure.Length) string { return b.cut(l) + b.lengthSuffix() }
		switch p.Kind {
		case job.Plank:
			if p.Mixed() {
				rules = append(rules, b.rackedRules(p)...)
				continue
			}
			rules = append(rules, patternRules(p)...)
			if p.Pattern.Blocks() {
				rules = append(rules, b.blockRules(p)...)
				continue
			}
			rules = append(rules, rule{p.Code, fmt.Sprintf("Plank %s x %s, joint %s: least end piece %s, least stagger %s, least row %s, expansion gap %s, kerf %s.",
				size(p.Length), size(p.Width), p.Joint, size(p.LeastEnd), size(p.LeastStagger), size(p.LeastRow), size(p.Gap), size(p.Kerf)), packWords(p), productRow + "; 300 mm, 50 mm, 12 mm: common practice"})
		case job.Trim:
			rules = append(rules, rule{p.Code, fmt.Sprintf("Bar of %s, kerf %s, least part of a joined run %s.", size(p.Length), size(p.Kerf), size(p.LeastEnd)), "", productRow})
		case job.Film:
			rules = append(rules, rule{p.Code, fmt.Sprintf("Strips of %s width overlap by %s and turn up %s at the walls.", size(p.Width), size(p.Overlap), size(p.Upturn)), "overlap at least 25 mm", productRow})
		case job.Compound:
			rules = append(rules, rule{p.Code, "Compound by area x depth.", p.Spread.String() + " kg per m2 and mm", productRow})
		case job.Adhesive:
			rules = append(rules, rule{p.Code, "Adhesive by the area one sold unit covers.", p.SpreadArea.Decimal(b.result.Job.Settings.AreaUnit, 2).String() + " " + b.result.Job.Settings.AreaUnit.String(), productRow})
		}
	}
	return rules
}

// patternRules says how a product in a fixed pattern is laid.
func patternRules(p *job.Product) []rule {
	if p.Pattern.Rows() == 0 {
		return nil
	}
	return []rule{{p.Code, fmt.Sprintf("Pattern %s: the end joints of every row lie 1/%d of a plank further right than those of the row before, in the whole room, past notches and columns too. "+
		"Where they come to lie along the row is chosen so that least planks are cut. A row whose end pieces would be too short leaves the pattern by as little as keeps the least end piece and the stagger, and is named under Cautions.",
		p.Pattern, p.Pattern.Rows()), "shifts rounded to the tape", "common practice; " + productRow}}
}

func packWords(p *job.Product) string {
	if p.PiecesPerPack == 0 {
		return ""
	}
	return fmt.Sprintf("%d in a pack", p.PiecesPerPack)
}

// usedProducts are the products that are ordered, each once, in the order of the
// orders.
func (b *book) usedProducts() []*job.Product {
	var used []*job.Product
	seen := map[*job.Product]bool{}
	for _, order := range b.result.Orders {
		for _, line := range order.Lines {
			if !seen[line.Product] {
				seen[line.Product] = true
				used = append(used, line.Product)
			}
		}
	}
	return used
}

// roomRules name the rooms whose shape was not given by their corners or
// sides.
func (b *book) roomRules() []rule {
	bySource := map[job.ShapeSource][]string{}
	for _, room := range b.result.Job.Rooms {
		name := strings.Join(notEmpty(room.Type, room.Name), " ")
		bySource[room.Source] = append(bySource[room.Source], name)
	}
	var rules []rule
	for source := range job.ShapeSources {
		names := bySource[job.ShapeSource(source)]
		if len(names) > 0 {
			rules = append(rules, rule{"Room shapes", "Taken from " + job.ShapeSources[source] + ": " + crew.SomeNames(names) + ".", crew.Counted(len(names), "room"), "Rooms and Corners sheets"})
		}
	}
	return rules
}
