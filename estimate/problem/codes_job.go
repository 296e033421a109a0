package problem

// Codes of the job's own sense: what cannot be meant although each cell reads.
const (
	RoomShapeMissing   Code = "room-shape-missing"
	RoomNotClosed      Code = "room-not-closed"
	RoomOutlineBad     Code = "room-outline-bad"
	RoomShapeAssumed   Code = "room-shape-assumed"
	OpeningTooWide     Code = "opening-too-wide"
	OpeningWallUnknown Code = "opening-wall-unknown"
	FixtureOutside     Code = "fixture-outside"
	BuildUpNoCovering  Code = "build-up-no-covering"
	PackSizeDiffers    Code = "pack-size-differs"
	PackHandsOdd       Code = "pack-hands-odd"
	PackRoundingFiner  Code = "pack-rounding-finer"
	CoveringFactor     Code = "covering-factor"
	ProductIncomplete  Code = "product-incomplete"
	CurrencyUnknown    Code = "currency-unknown"
	AmountTooFine      Code = "amount-too-fine"
	RunTooLong         Code = "run-too-long"
	RunTooShort        Code = "run-too-short"
	OrderDateMissing   Code = "order-date-missing"
	StartDateMissing   Code = "start-date-missing"
	OffersDiffer       Code = "offers-differ"
	OptionUnfit        Code = "option-unfit"
	FloorUnreadable    Code = "floor-unreadable"
	ThroughUnfit       Code = "laid-through-unfit"
	RepairUnfit        Code = "repair-unfit"
	RepairStock        Code = "repair-stock-excess"
	RepairRows         Code = "repair-rows-missing"
	RepairUnlisted     Code = "repair-unlisted"
)

var jobCodes = map[Code]Entry{
	RoomShapeMissing:   {Error, "a room has no shape", "Neither corners, an outline, length and width, nor an area are given.", "Give the room's length and width, or its outline."},
	RoomNotClosed:      {Error, "an outline does not close", "The walk round the room does not come back to where it began.", "Correct the leg that is wrong; the gap is shown."},
	RoomOutlineBad:     {Error, "an outline is not a floor", "The walk crosses or touches itself, or encloses nothing.", "Correct the corners or legs shown."},
	RoomShapeAssumed:   {Caution, "a room's shape is assumed", "Only area, or area and perimeter, are given; a rectangle is laid in their place.", "Measure the room's length and width before ordering."},
	FloorUnreadable:    {Error, "a floor is no number", "Work in the apartment is measured by the storeys that goods are carried, and its floor is neither a whole number nor ground.", "Write the floor as a number, 0 or ground for the one at street level, or -1 below it."},
	OpeningTooWide:     {Error, "an opening does not fit its wall", "The opening, with its distance from the corner, is longer than the wall.", "Correct the width or the distance from the corner."},
	OpeningWallUnknown: {Error, "an opening's wall is not known", "The room has no such wall, or several walls face that way.", "Give the number of the leg, counted anticlockwise from the corner nearest 0,0."},
	FixtureOutside:     {Error, "a fixture lies outside its room", "No part of the fixture stands on the room's floor.", "Correct its place or size."},
	BuildUpNoCovering:  {Error, "a build-up has no covering", "None of its items is a product to be walked on.", "Add the covering to the build-up."},
	PackSizeDiffers:    {Error, "a pack's area disagrees with its pieces", "Pieces per pack times length times width is more than 1 % off the stated area per pack.", "Correct the size, the pieces per pack or the area."},
	PackHandsOdd:       {Error, "a pack cannot hold both hands alike", "The product's blocks are left and right ones, a pack is said to hold both in equal numbers, and its number of pieces is odd.", "Correct the pieces per pack, or say that there are packs of each hand."},
	PackRoundingFiner:  {Error, "packs are rounded more finely than off-cuts are shared", "Planks shared between rooms cannot be bought in whole packs for each room.", "Round packs at the level at which off-cuts are shared, or at a wider one."},
	CoveringFactor:     {Error, "a product laid piece by piece has a factor or waste", "Its waste is computed from the pieces; a factor would count it twice.", "Leave Factor and Waste % empty in this row."},
	ProductIncomplete:  {Error, "a product lacks a size", "The product cannot be counted without this value.", "Fill in the value."},
	CurrencyUnknown:    {Error, "the currency is not known", "The code is not in ISO 4217, or has no minor unit.", "Write a currency code such as EUR, GBP or USD."},
	AmountTooFine:      {Error, "an amount has too many decimals", "An amount cannot be finer than the currency's minor unit.", "Round the amount; unit prices may have more decimals."},
	RunTooShort:        {Caution, "a run is too short to cut", "The stretch of wall between two corners or openings is no longer than the saw cut is wide; no piece is ordered for it.", "Nothing, or tidy the small step out of the room's outline."},
	OptionUnfit:        {Error, "an option replaces a product by another kind", "A product can stand in another's place only when it is counted and laid in the same way.", "Name a product of the same kind, or replace the whole build-up."},
	OffersDiffer:       {Error, "rows of one code are not one product", "Several suppliers may offer one code at their own prices and packs, but its sizes and laying rules must be the same: the floor is laid before the supplier is chosen.", "Correct the size or rule, or give the other product a code of its own."},
	StartDateMissing:   {Error, "a calendar needs a start date", "The programme begins on the Start date of the Job sheet or of an apartment, and neither has one.", "Fill in Start date on the Job sheet, or price without --calendar."},
	OrderDateMissing:   {Error, "order documents need a date", "Order documents for other programs state their date of issue, and the Job sheet has no Date.", "Fill in Date on the Job sheet, or price without --orders."},
	RunTooLong:         {Error, "a piece is longer than its stock", "The piece must come in one length and no stock is that long.", "Choose a longer stock, or a product that may be joined."},
	RepairUnfit:        {Error, "a repair cannot be counted so", "Planks that lie in rows and are all as long can be replaced piece by piece. The method of a repair is work and goods that are counted by its pieces, rows, area or waste.", "Name such a plank, or correct the lines of the method."},
	RepairStock:        {Error, "a repair takes fewer planks than it is given from stock", "The planks from stock are more than the pieces are cut from.", "Correct the number; planks that are on hand besides are not part of the repair."},
	RepairRows:         {Error, "a repair does not say how many rows are taken up", "Its method counts the rows that are taken up from the nearest wall, and the repair has none.", "Count the rows from the nearest wall to the damage, or name a method that cuts out in place."},
	RepairUnlisted:     {Caution, "a repair is in an apartment that is not listed", "The job lists its apartments and this one is not among them; it is priced as one where only repairs are done.", "Nothing, if that is meant; else write the apartment as on its sheet."},
	ThroughUnfit:       {Error, "rooms laid through an opening do not fit together", "The opening is not in the rows of both rooms, the rooms do not meet in it as they are drawn, or their floors differ.", "Correct the rows of both rooms, or leave Laid through empty."},
}
