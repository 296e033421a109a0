package problem

// Codes of laying and of the site: rules that a room does not allow and
// matters that a person must judge.
const (
	LayingRule       Code = "laying-rule"
	RoomNotLaid      Code = "room-not-laid"
	NotLaidByPiece   Code = "not-laid-by-piece"
	RandomLengths    Code = "random-lengths"
	BelowMinimum     Code = "below-minimum-order"
	PriceBreakNear   Code = "price-break-near"
	SplitDearer      Code = "split-dearer"
	FreeDeliveryNear Code = "free-delivery-near"
	DiscountNear     Code = "order-discount-near"
	PriceBelowCost   Code = "price-below-cost"
	AsbestosPossible Code = "asbestos-possible"
	LeadPossible     Code = "lead-paint-possible"
	MoistureHigh     Code = "moisture-high"
	HeavyPack        Code = "heavy-pack"
	SawDust          Code = "saw-dust"
	AdhesiveFumes    Code = "adhesive-fumes"
	StepEdge         Code = "step-edge"
	LongRun          Code = "long-run"
	WoodMovement     Code = "wood-movement"
	StartLate        Code = "start-late"
	OrderLate        Code = "order-late"
	FloorFull        Code = "floor-full"
	ProfileNarrow    Code = "profile-narrow"
	LettersMissing   Code = "letters-missing"
)

var siteCodes = map[Code]Entry{
	LayingRule:       {Caution, "a laying rule could not be kept", "The room's shape leaves no way to keep the named rule in the named row.", "Look at the drawing of the room and accept the piece, or change the laying direction or the product's rules."},
	RoomNotLaid:      {Warning, "a room has no floor to lay", "Nothing is left of the room inside the expansion gap.", "Check the room's size; it is priced without a covering."},
	NotLaidByPiece:   {Caution, "a covering is counted by area", "This kind of covering is not laid piece by piece; its area with the stated waste is ordered.", "Check the waste per cent of its row in the build-up."},
	RandomLengths:    {Caution, "boards of random lengths are known as a range", "Which board lies where is only known when packs are open. The rows are laid out: no floor takes less than its area, and laid by the rule on the cut lists none takes more than the most, which is bought.", "Open packs as the rows need them and send back those that stay closed."},
	BelowMinimum:     {Caution, "an order is below the supplier's minimum", "The supplier's minimum order is charged; the difference is a supplement line.", "Order more from this supplier, or accept the supplement."},
	PriceBreakNear:   {Caution, "buying more would cost less", "The next price break is so near that the order up to it is cheaper than the order as needed. Nothing more is ordered by itself.", "Raise the product's Minimum quantity to the break, if the rest can be stored or returned."},
	SplitDearer:      {Caution, "one order would cost less", "Orders for parts of the building miss a price break, a discount on the whole order, free delivery or a minimum that one order of the same goods reaches. The sheet Ordered at once says by how much.", "Ask the supplier for the whole job's prices with deliveries on call, or set Deliveries to job and store the goods."},
	FreeDeliveryNear: {Caution, "free delivery would cost less", "So little is missing to free delivery that buying it costs less than the delivery. Nothing more is ordered by itself.", "Buy more of the named product, if the rest can be stored, used or returned."},
	DiscountNear:     {Caution, "a discount on the whole order would cost less", "So little is missing to the supplier's discount on orders as a whole that buying it costs less than the discount saves. Nothing more is ordered by itself.", "Buy more of the named product, if the rest can be stored, used or returned."},
	PriceBelowCost:   {Warning, "the price does not cover the cost", "After the profit per cent the price is not above the cost.", "Check the profit per cent and its basis."},
	AsbestosPossible: {Caution, "old floors may hold asbestos", "The building is older than 1981 and old floor is to be lifted; resilient flooring and adhesive of that time are presumed to contain asbestos until tested (29 CFR 1926.1101).", "Have it tested before any lifting, sanding or grinding; a licensed firm decides and removes. Local law rules."},
	LeadPossible:     {Caution, "old paint may hold lead", "The building is older than 1978 and its skirtings or old floors are disturbed (40 CFR 745).", "Have paint tested or treat it as lead paint; certified renovators and local law rule."},
	MoistureHigh:     {Caution, "a moisture reading needs a decision", "The reading is above the product's limit.", "Do not lay; let the floor dry or have a moisture barrier designed, and test again."},
	HeavyPack:        {Caution, "a pack is heavy for one person", "The pack weighs more than 23 kg, the load constant of the NIOSH lifting equation (NIOSH publication 94-110).", "Carry it with two people or an aid; local rules on manual handling apply."},
	SawDust:          {Caution, "sawing planks sets dust free", "Planks are sawn on site. Wood dust in the air is limited to 15 mg/m3, 5 of it respirable (OSHA, particulates not otherwise regulated); NIOSH recommends 1 mg/m3. It also burns.", "Saw outside or with an extractor, and wear eye, ear and breathing protection; the maker's instructions and local rules apply."},
	AdhesiveFumes:    {Caution, "adhesive or primer is spread in closed rooms", "Adhesives and primers may give off solvents or irritate the skin (common practice; the safety data sheet says which).", "Read the safety data sheet, air the rooms, keep flames and sparks away and wear gloves; local rules apply."},
	StepEdge:         {Caution, "there are steps to work at", "The room has steps, where people may fall and trip until the nosings are fixed (common practice).", "Keep the stairs closed or guarded until every nosing is fixed; local code decides on heights, edges and handrails."},
	WoodMovement:     {Caution, "a floor of solid wood may outgrow its gaps", "From 45 to 60 % relative humidity, 8.5 to 11.0 % moisture at 21 C, the floor would grow by its width x coefficient x points (Wood Handbook table 13-5 and its table of equilibrium moisture), more than the expansion gaps on both sides. Fixing that holds the planks lessens it.", "Ask the maker for wider gaps, an expansion profile or a way of fixing, and keep the air between the maker's limits."},
	LettersMissing:   {Caution, "drawings or booklet lack letters", "The built-in types have Latin, Greek, Cyrillic, Hebrew, Arabic, Thai, Indian, Chinese, Japanese and Korean letters, among others, but not these; in the drawings of the result workbook and in the booklet each is printed as an empty square, an Arabic letter of which they lack the joined forms as if it stood alone. The cells of the workbook and the SVG drawings show them.", "Add a name in letters that are printed, or go by the cut lists of the result workbook."},
	StartLate:        {Caution, "an apartment starts later than asked", "On its start date all crews are at work elsewhere, or the work of the whole job is not done.", "Put more crews on the job, or agree on other start dates."},
	OrderLate:        {Caution, "goods must be ordered before today", "From the day they are needed on site, their lead time in working days leads to a day before the date of the estimate.", "Agree on a shorter lead time, choose another product, or start later."},
	FloorFull:        {Caution, "an apartment's goods are more than a floor can store", "The goods for one apartment weigh more than Floor storage; they are planned to lie there alone.", "Bring them in several loads, or have the building's engineer allow more. Nobody but the engineer decides what a floor can bear."},
	LongRun:          {Caution, "a floor is longer than its product allows", "The covering runs further than its longest run, and its build-up has no profile to divide it with.", "Add a trim measured by expansion profiles to the build-up: the floor is then laid in fields with the profile between them. The maker's instructions rule."},
	ProfileNarrow:    {Warning, "an expansion profile does not cover its break", "Between two fields an expansion gap is left on each side of the profile; the profile is no wider than both together.", "Choose a wider profile, or correct its Width."},
}
