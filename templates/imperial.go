package templates

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/measure"
	"laybill/sheet/form"
	"laybill/sheet/table"
)

// The fineness of the demo's lengths in inches: goods to 1/64, as makers state
// them, rooms to 1/8, as a tape is read.
const (
	goodsParts = 64
	roomParts  = 8
)

// toImperial restates the metric demo in feet, inches and square feet. Lengths
// are rounded to what a tape shows, so it is the same building, not the same
// job to the last cut.
func toImperial(rows map[string][]form.Row) {
	for i := range table.Tables {
		t := &table.Tables[i]
		for _, row := range rows[t.Key] {
			restateRow(t, row)
		}
	}
	byArea := map[string]bool{} // products priced by the square metre
	for _, row := range rows["products"] {
		byArea[row["code"]] = row["priceper"] == job.PerSquareMetre.String()
		restateProduct(row)
	}
	for _, row := range rows["breaks"] {
		if byArea[row["product"]] {
			row["price"] = perSquareFoot(row["price"])
		}
	}
	for _, row := range rows["operations"] {
		restateOperation(row)
	}
	for _, row := range rows["job"] {
		restateSetting(row)
	}
}

// restateRow turns every length, area and outline of a row.
func restateRow(t *table.Table, row form.Row) {
	for _, column := range t.Columns {
		text := row[column.Key]
		if text == "" {
			continue
		}
		switch column.Kind {
		case table.Length, table.Coordinate:
			row[column.Key] = lengthText(t, text)
		case table.Area:
			row[column.Key] = scaled(text, measure.SquareMetre, measure.SquareFoot, 2)
		case table.Legs:
			row[column.Key] = outline(text)
		}
	}
}

func lengthText(t *table.Table, text string) string {
	length := millimetres(text)
	switch t.Key {
	case "products", "loose", "remnants", "repairs":
		return length.Inches(goodsParts)
	}
	return length.FeetInches(roomParts)
}

func millimetres(text string) measure.Length {
	return measure.FromDecimal(decimal.RequireFromString(text), measure.MM)
}

// scaled restates a number counted in one unit of area as counted in another.
func scaled(text string, from, to measure.Area, places int32) string {
	return times(text, decimal.NewFromInt(int64(from)), decimal.NewFromInt(int64(to)), places)
}

func times(text string, numerator, denominator decimal.Decimal, places int32) string {
	return decimal.RequireFromString(text).Mul(numerator).DivRound(denominator, places).String()
}

var leg = regexp.MustCompile(`([NESW]) (\d+)`)

// outline restates the legs of a walk. The corners are rounded, not the legs,
// so that the walk still closes.
func outline(text string) string {
	at := map[string]measure.Length{} // metric distance walked along an axis
	return leg.ReplaceAllStringFunc(text, func(found string) string {
		parts := leg.FindStringSubmatch(found)
		axis, sign := "x", measure.Length(1)
		if parts[1] == "N" || parts[1] == "S" {
			axis = "y"
		}
		if parts[1] == "W" || parts[1] == "S" {
			sign = -1
		}
		before := rounded(at[axis])
		at[axis] += sign * millimetres(parts[2])
		return fmt.Sprintf("%s %s", parts[1], (sign * (rounded(at[axis]) - before)).FeetInches(roomParts))
	})
}

// rounded is the nearest whole 1/8 inch.
func rounded(l measure.Length) measure.Length {
	const step = measure.Inch / roomParts
	return (l + step/2) / step * step
}

// restateProduct turns prices and coverage by the square metre.
func restateProduct(row form.Row) {
	if row["priceper"] == job.PerSquareMetre.String() {
		row["priceper"] = job.PerSquareFoot.String()
		row["price"] = perSquareFoot(row["price"])
	}
	if row["packing"] != "" {
		row["packing"] = times(row["packing"], decimal.NewFromInt(1), job.CubicYard, 4)
	}
	if row["kind"] == job.Each.String() && row["spread"] != "" {
		row["spread"] = times(row["spread"], decimal.NewFromInt(1), job.CubicYard, 2)
	}
	if row["kind"] == job.Adhesive.String() {
		row["spread"] = scaled(row["spread"], measure.SquareMetre, measure.SquareFoot, 1)
	}
	row["description"] = strings.NewReplacer("10 m2", "108 ft2", "50 m2", "538 ft2").Replace(row["description"])
}

func perSquareFoot(price string) string {
	return scaled(price, measure.SquareFoot, measure.SquareMetre, 4)
}

// restateOperation turns hours by the square metre or metre.
func restateOperation(row form.Row) {
	foot, metre := decimal.NewFromInt(int64(measure.Foot)), decimal.NewFromInt(int64(measure.Metre))
	switch row["measure"] {
	case job.FloorArea.String(), job.LaidArea.String(), job.OldFloorArea.String(), job.AreaDepth.String(), job.LevelledArea.String(), job.Grinding.String():
		row["hours"] = scaled(row["hours"], measure.SquareFoot, measure.SquareMetre, 5)
	case job.Perimeter.String(), job.SkirtingLength.String(), job.Runs.String(), job.Seams.String(), job.ExpansionProfiles.String():
		row["hours"] = times(row["hours"], foot, metre, 5)
	}
}

// restateSetting turns the units and lengths of the Job sheet.
func restateSetting(row form.Row) {
	switch row["setting"] {
	case "Length unit":
		row["value"] = measure.Ft.String()
	case "Area unit":
		row["value"] = measure.Ft2.String()
	case "Default kerf", "Door width", "Least useful off-cut":
		row["value"] = millimetres(row["value"]).FeetInches(roomParts)
	}
}
