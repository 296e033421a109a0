package problem

// Codes of doubts: what reads well and is probably not meant.
const (
	SheetIgnored      Code = "sheet-not-read"
	HeadingUnknown    Code = "heading-unknown"
	HeadingRepeated   Code = "heading-repeated"
	HiddenRead        Code = "hidden-read"
	TableEmpty        Code = "table-empty"
	RowSkipped        Code = "row-skipped"
	EncodingGuessed   Code = "encoding-guessed"
	FormulaUnknown    Code = "formula-unknown"
	FormulaCalculated Code = "formula-calculated"
	PercentDoubtful   Code = "percent-doubtful"
	CurrencyDiffers   Code = "currency-differs"

	TypeUnused         Code = "type-unused"
	PerimeterTooShort  Code = "perimeter-too-short"
	RoomSizeDiffers    Code = "room-size-differs"
	RoomTooLarge       Code = "room-too-large"
	PieceTooSmall      Code = "piece-too-small"
	RoomSizeDoubtful   Code = "room-size-doubtful"
	FixtureTwice       Code = "fixtures-overlap"
	OpeningsOverlap    Code = "openings-overlap"
	DoorsTwice         Code = "doors-twice"
	ProfileTwice       Code = "profile-twice"
	WallNumberDoubtful Code = "wall-number-doubtful"

	BuildUpCoverings Code = "build-up-coverings"
	MeasureUnfit     Code = "measure-unfit"
	SidesSwapped     Code = "sides-swapped"
	RuleTooLong      Code = "laying-rule-too-long"
	OverlapTooSmall  Code = "overlap-too-small"
	PriceZero        Code = "price-zero"
	PriceDoubtful    Code = "price-doubtful"
	HoursDoubtful    Code = "hours-doubtful"
	RateDoubtful     Code = "rate-doubtful"

	OldFloorUncounted Code = "old-floor-uncounted"
)

var doubtCodes = map[Code]Entry{
	OldFloorUncounted: {Warning, "an old floor is in no waste", "The room's build-up counts waste to be taken away, but how thick and heavy the old floor is that it lifts is not said.", "Add the old floor to Old floors and name it in the room."},
	SheetIgnored:      {Caution, "a sheet is not read", "The sheet looks like one of the job's tables, but another sheet is read in its place or its headings are not there.", "Rename the sheet to have it read, or leave it."},
	HeadingUnknown:    {Error, "a heading is nearly a known one", "The heading is one or two letters off a heading of the table, or has a unit that does not fit it; Laybill does not guess.", "Correct the heading, or rename it clearly if the column is your own."},
	HeadingRepeated:   {Error, "a heading stands twice", "Two columns of the table have the same heading, so it is not clear which one counts.", "Rename or delete the column that is not meant."},
	HiddenRead:        {Caution, "something hidden is read", "Hidden or filtered rows, columns and sheets count like all others.", "Unhide them and look, or delete them if they are not meant."},
	TableEmpty:        {Error, "a table has no rows", "The job needs at least one row in this table, and only its headings are there.", "Fill in the table below its headings."},
	RowSkipped:        {Caution, "a row of totals is skipped", "The row begins with Total or Sum, or holds nothing but formulas.", "Nothing, if it is a row of totals; otherwise change its name."},
	EncodingGuessed:   {Caution, "a text file's letters are guessed", "The file is not in UTF-8 and does not say how it is encoded; it is read as Windows-1252.", "Look at accented letters and currency signs, or save the file as UTF-8."},
	FormulaUnknown:    {Error, "a formula has no value", "The workbook was saved without the formula's value and Laybill cannot calculate it.", "Open the workbook in the spreadsheet program and save it, or write the value."},
	FormulaCalculated: {Warning, "a formula was calculated by Laybill", "The workbook was saved without the formula's value.", "Open the workbook in the spreadsheet program and save it, to be sure of the value."},
	PercentDoubtful:   {Warning, "a percentage is less than one", "A plain number in a column of percentages is per cent, so 0.2 is 0.2 %; perhaps 20 % is meant.", "Write 20 for 20 %, or format the cell as a percentage."},
	CurrencyDiffers:   {Warning, "a cell shows another currency", "The cell's format writes the sign of a currency that is not the job's; the number is taken in the job's currency.", "Convert the amount, or correct the cell's format."},

	TypeUnused:         {Warning, "an apartment type is not used", "The type has rooms, but no apartment is of this type.", "Add the apartments, or correct the type's name."},
	PerimeterTooShort:  {Error, "a perimeter is too short for its area", "No floor of this area has so short a perimeter: not even a square.", "Correct the perimeter or the area."},
	RoomSizeDiffers:    {Warning, "a given size disagrees with the shape", "The area or perimeter is more than 1 % off that of the shape.", "Correct the area, the perimeter or the shape."},
	RoomTooLarge:       {Error, "a room takes too many pieces", "The room would take more than 200,000 pieces of its covering; a unit or a decimal point is wrong.", "Correct the room's size, the covering's size, or their units."},
	PieceTooSmall:      {Error, "a piece is too small to lay", "Planks are at least 50 mm long and 10 mm wide, trims at least 50 mm long.", "Correct the size or its unit."},
	RoomSizeDoubtful:   {Warning, "a room's size is unusual", "The room is longer than 50 m, smaller than 0.1 m2, or longer than twice all other rooms of its apartment end to end; a unit or a decimal point may be wrong.", "Check the room's sizes and their units."},
	FixtureTwice:       {Warning, "two fixtures stand in one place", "The fixtures overlap, so one of them may be listed twice.", "Correct or delete one of them."},
	OpeningsOverlap:    {Error, "two openings overlap in a wall", "The openings share a part of the wall.", "Correct the distances from the corner or the widths."},
	DoorsTwice:         {Caution, "doors are counted and listed", "The room has rows in Openings, so its number of doors is not used.", "Leave Doors empty, or check that every door is in Openings."},
	ProfileTwice:       {Warning, "both rooms of a doorway name its profile", "An opening between two rooms is listed in each of them; a profile in both is bought and cut twice.", "Leave Profile empty in one of the rows."},
	WallNumberDoubtful: {Warning, "a wall's number can be misread", "Walls are numbered anticlockwise from the corner nearest 0,0; the room's outline is written another way round, so its own legs have other numbers.", "Check that the wall named is the one meant, or write the outline anticlockwise from its south-west corner."},

	BuildUpCoverings: {Error, "a build-up has several coverings", "A floor has one covering to be walked on.", "Leave one covering in the build-up; make another build-up for the other."},
	MeasureUnfit:     {Error, "an item cannot be measured so", "The item is of a kind that this measure does not count.", "Choose a measure that fits the item."},
	SidesSwapped:     {Error, "a plank is wider than long", "Length and width are probably swapped.", "Swap the length and the width."},
	RuleTooLong:      {Error, "a laying rule leaves no way to lay", "The least length or distance is too long for the plank itself.", "Correct the rule or the size of the plank."},
	OverlapTooSmall:  {Error, "a film's overlap is too small", "Film strips overlap by at least 25 mm, and by less than their width.", "Correct the overlap."},
	PriceZero:        {Warning, "a price is nothing", "The product, wage or cost is priced at 0.", "Fill in the price, if it is not free."},
	PriceDoubtful:    {Warning, "a price is far from its neighbours", "By area, the product costs more than ten times, or less than a tenth, of what most products of its kind cost.", "Check the price and the unit it is for."},
	HoursDoubtful:    {Warning, "hours are unusual", "So many hours for one unit, or in a day, are rarely meant.", "Check the hours and the unit."},
	RateDoubtful:     {Warning, "a percentage is unusual", "So high a percentage is rarely meant.", "Check the percentage."},
}
