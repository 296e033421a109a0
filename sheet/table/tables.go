package table

import "laybill/estimate/job"

// Tables are all tables in the order of a new workbook.
var Tables = []Table{
	{
		Key: "job", Sheet: "Job", Row: "a setting", Required: true,
		Help: "Settings of the whole job. Rows that are left out take their defaults.",
		Columns: []Column{
			{Key: "setting", Heading: "Setting", Kind: Name, Required: true, Help: "The setting's name."},
			{Key: "value", Heading: "Value", Kind: Value, Required: true, Help: "The setting's value. Empty: the default shown in the note."},
			{Key: "note", Heading: "Note", Kind: Text, Help: "For people; Laybill does not read it."},
		},
	},
	{
		Key: "suppliers", Sheet: "Suppliers", Row: "a supplier",
		Help: "Who the products are bought from. Every supplier gets a purchase order.",
		Columns: []Column{
			{Key: "code", Heading: "Code", Also: []string{"Supplier code", "Supplier"}, Kind: Name, Required: true, Help: "Short code that the Products sheet uses."},
			{Key: "name", Heading: "Name", Also: []string{"Supplier name"}, Kind: Text, Required: true, Help: "Name printed on the purchase order."},
			{Key: "address", Heading: "Address", Also: []string{"Street"}, Kind: Text},
			{Key: "city", Heading: "City", Also: []string{"Town"}, Kind: Text},
			{Key: "postcode", Heading: "Postcode", Also: []string{"Postal code", "ZIP"}, Kind: Text},
			{Key: "country", Heading: "Country", Kind: Text, Help: "Two-letter code of ISO 3166."},
			{Key: "taxnumber", Heading: "Tax number", Also: []string{"VAT number"}, Kind: Text},
			{Key: "email", Heading: "Email", Also: []string{"E-mail"}, Kind: Text},
			{Key: "lead", Heading: "Lead time days", Also: []string{"Lead time", "Lead days"}, Kind: Whole, Default: "0", Help: "Working days from order to delivery."},
			{Key: "minimum", Heading: "Minimum order", Kind: Amount, Default: "none", Help: "Least value of goods after discount. Below it the difference is charged as a supplement."},
			{Key: "delivery", Heading: "Delivery charge", Also: []string{"Delivery"}, Kind: Amount, Default: "0", Help: "Charged once an order."},
			{Key: "free", Heading: "Free delivery from", Kind: Amount, Default: "never", Help: "Value of goods after discount from which delivery is free."},
			{Key: "discount", Heading: "Discount %", Also: []string{"Discount"}, Kind: Percent, Default: "0", Help: "Taken off every line of this supplier."},
		},
	},
	{
		Key: "products", Sheet: "Products", Row: "something bought", Required: true,
		Help: "Everything that is bought: coverings, underlay, film, trims, compound, adhesive. A code that several suppliers offer has a row for each, with the same sizes; the suppliers are chosen so that all orders together cost least.",
		Columns: []Column{
			{Key: "code", Heading: "Code", Also: []string{"Product code", "Product", "Article", "Item"}, Kind: Name, Required: true, Help: "Short code that other sheets use."},
			{Key: "description", Heading: "Description", Also: []string{"Name"}, Kind: Text, Required: true},
			{Key: "kind", Heading: "Kind", Also: []string{"Type"}, Kind: Choice, Choices: job.Kinds, Required: true, Help: "plank, tile and roll are coverings; underlay is laid in rows cut from rolls or boards; sheet is counted by area; film is laid in overlapping strips; trim is cut to lengths; compound, grout and adhesive go by Spread; each is counted."},
			{Key: "supplier", Heading: "Supplier", Kind: Reference, Refers: "suppliers", Required: true, Help: "Code of the Suppliers sheet."},
			{Key: "length", Heading: "Length", Kind: Length, Help: "Of one plank, trim, roll or sheet."},
			{Key: "shortest", Heading: "Shortest length", Also: []string{"Shortest plank", "Shortest board"}, Kind: Length, Default: "all are as long", Help: "Of planks of random lengths: the shortest in a pack; Length is the longest, and Area per pack is needed. Their rows are laid out, the least and the most they take is said, and the most is bought."},
			{Key: "width", Heading: "Width", Kind: Length, Help: "Of one plank, roll or sheet, laid face."},
			{Key: "thickness", Heading: "Thickness", Kind: Millimetres, Help: "In millimetres, unless another unit is written."},
			{Key: "pieces", Heading: "Pieces per pack", Also: []string{"Pieces", "Planks per pack"}, Kind: Whole, Help: "Planks, sheets or trims in a pack."},
			{Key: "packarea", Heading: "Area per pack", Also: []string{"Pack area", "Coverage"}, Kind: Area, Default: "pieces x length x width", Help: "Covered area of a pack; of a roll or sheet, its own area."},
			{Key: "soldby", Heading: "Sold by", Also: []string{"Unit"}, Kind: Choice, Choices: job.Units, Required: true, Help: "The unit that is ordered."},
			{Key: "price", Heading: "Price", Also: []string{"Unit price", "List price"}, Kind: Price, Required: true, Help: "Before discount and tax."},
			{Key: "priceper", Heading: "Price per", Kind: Choice, Choices: job.Units, Default: "as Sold by", Help: "The unit the price is for, when it is not the unit sold: a pack may be priced per m2."},
			{Key: "step", Heading: "Order step", Kind: Number, Default: "1 sold unit; a pack's area when sold by area", Help: "Orders are a multiple of it."},
			{Key: "minimum", Heading: "Minimum quantity", Kind: Number, Default: "0", Help: "Least quantity of an order, in sold units."},
			{Key: "pallet", Heading: "Packs per pallet", Kind: Whole},
			{Key: "weight", Heading: "Weight", Also: []string{"Weight kg"}, Kind: Number, Help: "Kilograms of one sold unit. Compound needs it."},
			{Key: "lead", Heading: "Lead time", Also: []string{"Lead time days"}, Kind: Whole, Default: "the supplier's", Help: "Working days from order to delivery."},
			{Key: "tax", Heading: "Tax %", Also: []string{"VAT %", "Tax"}, Kind: Percent, Default: "the job's Tax %"},
			{Key: "joint", Heading: "Joint", Kind: Choice, Choices: job.Joints, Default: "click", Help: "How planks meet. Click and tongue-groove planks keep their factory ends at every joint."},
			{Key: "joints", Heading: "Pattern", Also: []string{"Laying pattern"}, Kind: Choice, Choices: job.Patterns, Default: "random", Help: "Of planks: how end joints lie. random: as saves most planks, the least stagger apart. half, third: every row lies half or a third of a plank further than the row before, in the whole room. herringbone, double herringbone (blocks in pairs) and chevron: left and right blocks, their points running in the room's laying direction (common practice)."},
			{Key: "hands", Heading: "Hand", Also: []string{"Hands"}, Kind: Choice, Choices: job.HandsWords, Default: "both in a pack", Help: "Of left and right blocks: whether a pack holds both in equal numbers, or there are packs of lefts and packs of rights."},
			{Key: "angle", Heading: "Chevron angle", Kind: Number, Default: "45", Help: "Of a chevron, in degrees from 30 to 75: between a block and the line that its ends meet on (45 and 60 are usual, common practice). The length of a block is that of its long side."},
			{Key: "leastend", Heading: "Least end piece", Kind: Length, Default: "300 mm", Help: "Shortest first or last piece of a row; of a trim, shortest part of a jointed run; of underlay, shortest piece of a narrow last row (common practice)."},
			{Key: "stagger", Heading: "Least stagger", Kind: Length, Default: "300 mm", Help: "Least distance between end joints of neighbouring rows (common practice)."},
			{Key: "leastrow", Heading: "Least row width", Kind: Length, Default: "50 mm", Help: "Narrowest first or last row (common practice)."},
			{Key: "gap", Heading: "Expansion gap", Kind: Length, Default: "12 mm", Help: "Left at walls and fixtures (12 to 15 mm, common practice; confirm with the maker's instructions)."},
			{Key: "kerf", Heading: "Kerf", Kind: Length, Default: "the job's Default kerf", Help: "Width of a saw cut."},
			{Key: "longest", Heading: "Longest run", Kind: Length, Default: "no limit", Help: "Longest floor, along or across the planks, without an expansion profile. A longer room is laid in fields when its build-up has a trim measured by expansion profiles."},
			{Key: "moisturelimit", Heading: "Moisture limit", Kind: Number, Default: "the usual ones: 2.0 % by carbide test (heated 1.8), or 75 % relative humidity", Help: "Most that a room's moisture reading may be before this covering is laid, in the unit of the reading; from the maker's instructions."},
			{Key: "movement", Heading: "Wood movement", Kind: Number, Help: "Of planks of solid wood: how much wider they get for each per cent of moisture, as a fraction: red oak 0.00369, white oak 0.00365, hard maple 0.00353 (Wood Handbook table 13-5, flat-sawn). Floors that would outgrow their expansion gaps are named."},
			{Key: "pattern", Heading: "Pattern length", Kind: Length},
			{Key: "match", Heading: "Pattern match", Kind: Text},
			{Key: "spread", Heading: "Spread", Kind: Number, Help: "Adhesive: area units one sold unit covers. Compound: kilograms per m2 and mm of depth, which is kilograms per litre; so are grout and tile adhesive that go by joints or bed. Skips and bags counted by waste volume: cubic metres one holds, cubic yards in jobs of feet and inches."},
			{Key: "overlap", Heading: "Overlap", Kind: Length, Default: "200 mm", Help: "Of film strips; never under 25 mm."},
			{Key: "upturn", Heading: "Upturn", Kind: Length, Default: "50 mm", Help: "Film turned up at the walls."},
			{Key: "acclimatise", Heading: "Acclimatisation", Also: []string{"Acclimatisation hours", "Acclimatization"}, Kind: Whole, Default: "48 for planks, else 0", Help: "Hours that the goods must lie in their rooms before laying (48, common practice; confirm with the maker's instructions)."},
			{Key: "heatresist", Heading: "Thermal resistance", Also: []string{"Heat resistance", "R value"}, Kind: Number, Help: "Of a covering or a layer under it, in m2K/W; from the maker's data sheet. Checked over heated floors."},
			{Key: "cornercut", Heading: "Corner cut", Kind: Choice, Choices: job.CornerCuts, Default: job.Squared.String(), Help: "Of a trim at corners. square: no allowance. mitred: inside and outside corners. scribed: at inside corners each piece's left end is scribed to the next one, at outside ones mitred. An outside mitre takes extra length by the trim's Thickness."},
			{Key: "scribing", Heading: "Scribing allowance", Kind: Length, Default: "0 mm", Help: "Of a trim: added to a piece at each scribed end."},
			{Key: "jointwidth", Heading: "Joint width", Kind: Millimetres, Help: "Of a tile: between two tiles. Grout measured by joints is counted from it and the tile's length, width and thickness."},
			{Key: "notch", Heading: "Notch", Kind: Millimetres, Help: "Of a tile: depth of the square notches of the trowel. The bed of adhesive measured by bed is half of it (common practice)."},
			{Key: "backcoat", Heading: "Back-buttering", Also: []string{"Back buttering"}, Kind: Millimetres, Default: "0", Help: "Of a tile: thickness of the adhesive spread on its back, added to the bed."},
			{Key: "lengthof", Heading: "Length of", Kind: Reference, Refers: "products", Help: "Of a trim: the code of the trim that this is another stock length of. The cutting plan takes whichever lengths cost least; build-ups name the other code."},
			{Key: "returnable", Heading: "Returnable", Kind: YesNo, Default: "no", Help: "Unopened packs may go back."},
		},
	},
	{
		Key: "breaks", Sheet: "Price breaks", Also: []string{"Quantity prices", "Volume prices"}, Row: "a quantity price",
		Help: "Prices from an order quantity on. The whole order of a product is charged at the break it reaches.",
		Columns: []Column{
			{Key: "product", Heading: "Product", Also: []string{"Product code", "Article"}, Kind: Reference, Refers: "products", Required: true},
			{Key: "supplier", Heading: "Supplier", Kind: Reference, Refers: "suppliers", Help: "Whose price it is, when several suppliers offer the product."},
			{Key: "from", Heading: "From quantity", Also: []string{"From", "Quantity from"}, Kind: Number, Required: true, Help: "In sold units of the product, of the whole order."},
			{Key: "price", Heading: "Price", Also: []string{"Unit price"}, Kind: Price, Required: true, Help: "Instead of the product's price, per the same unit."},
		},
	},
	{
		Key: "buildups", Sheet: "Build-ups", Also: []string{"Buildups", "Build ups", "Floors"}, Row: "one layer or operation of a build-up", Required: true,
		Help: "What a floor is made of, layer by layer, and the work it takes.",
		Columns: []Column{
			{Key: "buildup", Heading: "Build-up", Also: []string{"Buildup", "Floor"}, Kind: Name, Required: true, Help: "Repeat the name on every row of the build-up."},
			{Key: "order", Heading: "Order", Also: []string{"No", "Layer"}, Kind: Whole, Default: "the row's place"},
			{Key: "item", Heading: "Item", Also: []string{"Product or operation"}, Kind: Reference, Refers: "products|operations", Required: true, Help: "Code of a product or an operation."},
			{Key: "measure", Heading: "Measured by", Kind: Choice, Choices: job.Measures, Required: true, Help: "What the quantity is counted from. It wins over the operation's own. levelled area, area x depth and grinding (area x depth ground off) come from the room's Level by or its Levels. Expansion profiles: the length of those that divide floors longer than the covering's Longest run."},
			{Key: "factor", Heading: "Factor", Kind: Number, Default: "1", Help: "Multiplies the quantity: 2 for two coats."},
			{Key: "waste", Heading: "Waste %", Also: []string{"Waste"}, Kind: Percent, Default: "0", Help: "Added to the quantity. Not for planks: their waste is computed."},
			{Key: "note", Heading: "Note", Kind: Text},
		},
	},
	{
		Key: "rooms", Sheet: "Rooms", Row: "a room of an apartment type", Required: true,
		Help: "Every room of every apartment type, once. Give the shape by corners, an outline, length and width, or area.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text, Default: "the whole job is one"},
			{Key: "room", Heading: "Room", Also: []string{"Room name"}, Kind: Name, Required: true},
			{Key: "buildup", Heading: "Build-up", Also: []string{"Buildup", "Floor"}, Kind: Reference, Refers: "buildups", Required: true},
			{Key: "length", Heading: "Length", Kind: Length, Help: "Along x (east), wall to wall."},
			{Key: "width", Heading: "Width", Kind: Length, Help: "Along y (north), wall to wall."},
			{Key: "outline", Heading: "Outline", Kind: Legs, Help: "A walk round the room: E 5.2, N 2.4, W 1.2, N 1.2, W 4.0, S 3.6. A slanted leg names both parts: E 0.9 N 1.2. The last leg may be left out."},
			{Key: "area", Heading: "Area", Kind: Area, Help: "Checks the shape, or stands in for it."},
			{Key: "perimeter", Heading: "Perimeter", Kind: Length, Help: "With Area: the room is taken as the rectangle of this area and perimeter."},
			{Key: "direction", Heading: "Laying direction", Also: []string{"Direction"}, Kind: Direction, Default: "along the longer side", Help: "along length, along width, degrees anticlockwise from the length, toward light: N (E, S, W), or auto."},
			{Key: "level", Heading: "Level by", Also: []string{"Level by mm", "Levelling"}, Kind: Millimetres, Default: "0", Help: "Mean depth of compound, in millimetres."},
			{Key: "lift", Heading: "Lift old floor", Also: []string{"Old floor"}, Kind: Reference, Refers: "oldfloors", Default: "no", Help: "The old floor that is lifted, a row of Old floors; yes when its kind is not known; no."},
			{Key: "skirting", Heading: "Skirting", Kind: YesNo, Default: "yes when the build-up has one"},
			{Key: "doors", Heading: "Doors", Kind: Whole, Default: "0", Help: "Doors of the job's Door width without a place; not used when the room has Openings."},
			{Key: "heated", Heading: "Heated", Kind: YesNo, Default: "no", Help: "Underfloor heating."},
			{Key: "moisture", Heading: "Moisture reading", Kind: Number, Help: "As measured; in the unit of the product's Moisture limit."},
			{Key: "subfloor", Heading: "Subfloor", Kind: Choice, Choices: job.Subfloors, Default: "the job's Subfloor"},
			{Key: "flatness", Heading: "Flatness group", Kind: Choice, Choices: job.FlatnessGroups, Default: "the job's Flatness group"},
			{Key: "steps", Heading: "Steps", Kind: Whole, Default: "0", Help: "Stair steps in the room."},
			{Key: "stepwidth", Heading: "Step width", Also: []string{"Stair width"}, Kind: Length, Help: "Nosings are cut to it; empty: a whole length of nosing for each step."},
			{Key: "note", Heading: "Note", Kind: Text},
		},
	},
	{
		Key: "oldfloors", Sheet: "Old floors", Row: "a kind of floor that is lifted",
		Help: "What is taken up before laying: the work, and how much there is to take away. Rooms name it under Lift old floor.",
		Columns: []Column{
			{Key: "name", Heading: "Old floor", Kind: Name, Required: true},
			{Key: "thickness", Heading: "Thickness", Kind: Millimetres, Required: true, Help: "With what is lifted together with it: underlay, glue, battens."},
			{Key: "weight", Heading: "Weight per m2", Also: []string{"Weight"}, Kind: Number, Required: true, Help: "Kilograms of one square metre."},
			{Key: "operation", Heading: "Operation", Kind: Reference, Refers: "operations", Help: "Lifts it; its hours are by area, whatever it is measured by."},
			{Key: "note", Heading: "Note", Kind: Text},
		},
	},
	{
		Key: "corners", Sheet: "Corners", Row: "a corner of a room",
		Help: "Corners in walking order. Ring 1 is the outline; further rings are holes.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text},
			{Key: "room", Heading: "Room", Kind: Text, Required: true},
			{Key: "ring", Heading: "Ring", Kind: Whole, Default: "1"},
			{Key: "x", Heading: "X", Kind: Coordinate, Required: true},
			{Key: "y", Heading: "Y", Kind: Coordinate, Required: true},
		},
	},
	{
		Key: "openings", Sheet: "Openings", Also: []string{"Doors"}, Row: "a doorway",
		Help: "Doorways and gaps in walls. An opening between two rooms is listed in each; its profile in one of them.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text},
			{Key: "room", Heading: "Room", Kind: Text, Required: true},
			{Key: "wall", Heading: "Wall", Kind: Wall, Required: true, Help: "N, E, S or W when only one wall faces that way, else the number of the leg, anticlockwise from the corner nearest 0,0."},
			{Key: "from", Heading: "From corner", Also: []string{"From"}, Kind: Length, Default: "in the middle of the wall", Help: "From the wall's first corner, walking anticlockwise."},
			{Key: "width", Heading: "Width", Kind: Length, Required: true},
			{Key: "depth", Heading: "Wall depth", Also: []string{"Depth"}, Kind: Length},
			{Key: "return", Heading: "Return", Kind: Length, Default: "0 mm", Help: "How far the skirting turns into the opening, on its left and on its right. Where rooms share an opening, each room's own part of the wall depth."},
			{Key: "leads", Heading: "Leads to", Kind: Text},
			{Key: "profile", Heading: "Profile", Kind: Reference, Refers: "products", Help: "Trim cut to the opening's width."},
			{Key: "through", Heading: "Laid through", Kind: YesNo, Default: "no", Help: "The floor runs through the opening without a break: both rooms are laid as one. Both list the opening, with the same width and wall depth, and are drawn with the same north."},
			{Key: "undercut", Heading: "Undercut", Kind: YesNo, Default: "no", Help: "The door frame is cut to let the floor under it."},
		},
	},
	{
		Key: "fixtures", Sheet: "Fixtures", Row: "a thing the floor goes round",
		Help: "Columns, hearths, islands. X, Y is the corner nearest 0,0.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text},
			{Key: "room", Heading: "Room", Kind: Text, Required: true},
			{Key: "x", Heading: "X", Kind: Coordinate, Required: true},
			{Key: "y", Heading: "Y", Kind: Coordinate, Required: true},
			{Key: "length", Heading: "Length", Kind: Length, Required: true, Help: "Along x."},
			{Key: "width", Heading: "Width", Kind: Length, Required: true, Help: "Along y."},
			{Key: "under", Heading: "Floor under", Kind: YesNo, Default: "no", Help: "yes: the floor runs under it."},
		},
	},
	{
		Key: "apartments", Sheet: "Apartments", Also: []string{"Flats"}, Row: "one apartment",
		Help: "The building, apartment by apartment.",
		Columns: []Column{
			{Key: "apartment", Heading: "Apartment", Also: []string{"Flat", "Apartment name"}, Kind: Name, Required: true},
			{Key: "type", Heading: "Type", Also: []string{"Apartment type", "Flat type"}, Kind: Text, Required: true},
			{Key: "count", Heading: "Count", Kind: Whole, Default: "1", Help: "So many alike apartments, numbered after the name: 3 of A become A-1, A-2, A-3."},
			{Key: "floor", Heading: "Floor", Also: []string{"Storey", "Level"}, Kind: Text},
			{Key: "block", Heading: "Block", Kind: Text},
			{Key: "phase", Heading: "Phase", Kind: Text},
			{Key: "mirrored", Heading: "Mirrored", Kind: YesNo, Default: "no", Help: "Left and right are swapped; the floor is laid again for it."},
			{Key: "option", Heading: "Option", Kind: Text, Help: "An option of the Options sheet that is priced for this apartment."},
			{Key: "start", Heading: "Start date", Also: []string{"Start"}, Kind: Date, Default: "the earliest of its Phase, else the job's", Help: "First day on which work in the apartment may begin."},
		},
	},
	{
		Key: "levels", Sheet: "Levels", Also: []string{"Level readings", "Flatness survey"}, Row: "a level reading of a room's subfloor",
		Help: "Heights of the subfloor where they were read, above any datum. With an apartment: read there, from its own corner at 0,0 as built; without: for the room in every apartment of the type. Three readings or more make the surface that compound and grinding are counted from.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text},
			{Key: "apartment", Heading: "Apartment", Also: []string{"Flat"}, Kind: Text},
			{Key: "room", Heading: "Room", Kind: Text, Required: true},
			{Key: "x", Heading: "X", Kind: Coordinate, Required: true, Help: "Along the room's length from its corner at 0,0."},
			{Key: "y", Heading: "Y", Kind: Coordinate, Required: true, Help: "Along the room's width from its corner at 0,0."},
			{Key: "height", Heading: "Height", Also: []string{"Level", "Height mm"}, Kind: Millimetres, Required: true, Help: "In millimetres above the datum, higher is more; may be negative."},
		},
	},
	{
		Key: "operations", Sheet: "Operations", Also: []string{"Work"}, Row: "a piece of work",
		Help: "Work and its hours per unit; build-ups refer to it.",
		Columns: []Column{
			{Key: "code", Heading: "Code", Also: []string{"Operation"}, Kind: Name, Required: true},
			{Key: "description", Heading: "Description", Kind: Text, Required: true},
			{Key: "measure", Heading: "Measured by", Kind: Choice, Choices: job.Measures, Required: true},
			{Key: "hours", Heading: "Hours per unit", Also: []string{"Hours"}, Kind: Number, Required: true, Help: "Hours of one worker for one unit."},
			{Key: "trade", Heading: "Trade", Kind: Reference, Refers: "trades", Required: true},
			{Key: "least", Heading: "Least hours", Kind: Number, Default: "0", Help: "Least hours of this operation in one apartment."},
			{Key: "category", Heading: "Category", Kind: Text, Default: "Labour"},
			{Key: "step", Heading: "Step", Kind: Choice, Choices: stepWords(job.WorkSteps), Default: "from what it is measured by", Help: "Step of an apartment's programme in which the work is done."},
		},
	},
	{
		Key: "holidays", Sheet: "Holidays", Row: "a day on which nobody works",
		Help: "Public holidays and other days off, besides the days of the week that are not worked.",
		Columns: []Column{
			{Key: "date", Heading: "Date", Kind: Date, Required: true},
			{Key: "note", Heading: "Note", Kind: Text},
		},
	},
	{
		Key: "trades", Sheet: "Trades", Row: "a kind of worker",
		Columns: []Column{
			{Key: "trade", Heading: "Trade", Kind: Name, Required: true},
			{Key: "wage", Heading: "Wage", Also: []string{"Hourly wage", "Rate"}, Kind: Price, Required: true, Help: "An hour, before burden."},
			{Key: "burden", Heading: "Burden %", Also: []string{"Burden"}, Kind: Percent, Default: "0", Help: "Employer's taxes, insurance and leave on top of the wage."},
			{Key: "overtime", Heading: "Overtime factor", Also: []string{"Overtime"}, Kind: Number, Default: "1.5"},
		},
	},
	{
		Key: "extras", Sheet: "Extras", Also: []string{"Other costs"}, Row: "a cost by name",
		Help: "Costs that are neither material nor hours: skips, lifts, parking, protection.",
		Columns: []Column{
			{Key: "description", Heading: "Description", Kind: Text, Required: true},
			{Key: "per", Heading: "Per", Kind: Choice, Choices: levelWords(job.ExtraLevels), Required: true},
			{Key: "quantity", Heading: "Quantity", Kind: Number, Default: "1"},
			{Key: "cost", Heading: "Unit cost", Also: []string{"Cost"}, Kind: Price, Required: true},
			{Key: "category", Heading: "Category", Kind: Text, Default: "Other"},
			{Key: "tax", Heading: "Tax %", Kind: Percent, Default: "the job's Tax %"},
		},
	},
	{
		Key: "options", Sheet: "Options", Also: []string{"Alternatives"}, Row: "a replacement of an option",
		Help: "Alternatives to price beside the job, each as a whole job. Rows of one option belong together. It holds in the apartments that name it under Option, or in the whole job when none does.",
		Columns: []Column{
			{Key: "option", Heading: "Option", Kind: Name, Required: true, Help: "The option's name, as the client should read it."},
			{Key: "replace", Heading: "Replace", Kind: Reference, Refers: "buildups|products", Required: true, Help: "A build-up, or a product wherever it is used."},
			{Key: "with", Heading: "With", Kind: Reference, Refers: "buildups|products", Required: true, Help: "Another build-up, or another product of the same kind."},
			{Key: "note", Heading: "Note", Kind: Text},
		},
	},
	{
		Key: "takeoff", Sheet: "Takeoff", Row: "a room as others measured it",
		Help: "Quantities that others took off the plans, to set beside the rooms as laid. A room without a size of its own is laid as the rectangle of this area and perimeter; for the others they change nothing.",
		Columns: []Column{
			{Key: "type", Heading: "Apartment type", Also: []string{"Type", "Flat type"}, Kind: Text},
			{Key: "room", Heading: "Room", Kind: Text, Required: true},
			{Key: "area", Heading: "Area", Kind: Area, Required: true},
			{Key: "perimeter", Heading: "Perimeter", Kind: Length},
			{Key: "openings", Heading: "Openings", Also: []string{"Doors"}, Kind: Whole},
			{Key: "source", Heading: "Source", Kind: Text, Help: "Whose figures they are: plan, date, revision."},
		},
	},
	{
		Key: "loose", Sheet: "Loose lengths", Row: "extra pieces of trim",
		Help: "Pieces of trim besides those of the rooms, cut whole.",
		Columns: []Column{
			{Key: "product", Heading: "Product", Kind: Reference, Refers: "products", Required: true},
			{Key: "length", Heading: "Length", Kind: Length, Required: true},
			{Key: "count", Heading: "Count", Kind: Whole, Required: true},
			{Key: "where", Heading: "Where", Kind: Text},
		},
	},
	{
		Key: "remnants", Sheet: "Remnants", Also: []string{"Trim remnants"}, Row: "lengths of trim on hand",
		Help: "Off-cuts kept from earlier jobs. They cost nothing and are cut before new lengths where that saves one.",
		Columns: []Column{
			{Key: "product", Heading: "Product", Kind: Reference, Refers: "products", Required: true},
			{Key: "length", Heading: "Length", Kind: Length, Required: true},
			{Key: "count", Heading: "Count", Kind: Whole, Required: true},
			{Key: "where", Heading: "Where", Kind: Text, Help: "Where they are kept; for people."},
		},
	},
}

func stepWords(steps []job.Step) []string {
	words := make([]string, len(steps))
	for i, step := range steps {
		words[i] = step.String()
	}
	return words
}

func levelWords(levels []job.Level) []string {
	words := make([]string, len(levels))
	for i, level := range levels {
		words[i] = level.String()
	}
	return words
}
