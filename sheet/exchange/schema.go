package exchange

// The structures of the result file, schema "laybill.result/1". The package
// comment of estimate/proof describes every field.

type jobEntry struct {
	Name     string `json:"name"`
	Number   string `json:"number"`
	Client   string `json:"client"`
	Site     string `json:"site"`
	Currency string `json:"currency"`

	Sharing      string `json:"offcut_sharing"`
	PackRounding string `json:"pack_rounding"`
	Breakage     dec    `json:"breakage_pct"`
	Attic        dec    `json:"attic_pct"`

	HoursADay     dec              `json:"hours_a_day"`
	OvertimeAfter dec              `json:"overtime_after"`
	LeastCallOut  dec              `json:"least_call_out_h"`
	EntranceFloor int              `json:"entrance_floor"`
	Lift          bool             `json:"lift"`
	Learning      dec              `json:"learning_pct"`
	Apartments    []apartmentEntry `json:"apartments,omitempty"`
}

type apartmentEntry struct {
	Apartment string `json:"apartment"`
	Type      string `json:"type"`
}

type place struct {
	Apartment string  `json:"apartment"`
	Type      string  `json:"type"`
	Room      *string `json:"room"`
}

type roomEntry struct {
	Apartment string       `json:"apartment"`
	Type      string       `json:"type"`
	Room      string       `json:"room"`
	Floor     string       `json:"floor"`
	Block     string       `json:"block"`
	Outline   ring         `json:"outline_mm"`
	Holes     []ring       `json:"holes_mm"`
	Fields    []fieldEntry `json:"fields,omitempty"`
	Area      dec          `json:"area_m2"`
	Perimeter mm           `json:"perimeter_mm"`
	Layout    *string      `json:"layout"`
	Pool      string       `json:"pool"`
	Mirrored  bool         `json:"mirrored"`
	OldFloor  string       `json:"old_floor,omitempty"`

	Openings []openingEntry `json:"openings"`
}

type repairedEntry struct {
	Apartment string `json:"apartment"`
	Type      string `json:"type"`
	Room      string `json:"room"`
	Floor     string `json:"floor"`
	Block     string `json:"block"`
	Area      dec    `json:"area_m2"`
}

type repairEntry struct {
	place
	Product     string `json:"product"`
	Method      string `json:"method"`
	Pieces      int    `json:"pieces"`
	Length      mm     `json:"length_mm"`
	PlankLength mm     `json:"plank_length_mm"`
	PlankWidth  mm     `json:"plank_width_mm"`
	Kerf        mm     `json:"kerf_mm"`
	FromStock   int    `json:"from_stock"`
	NewPlanks   int    `json:"new_planks"`
	Rows        int    `json:"rows"`
}

type openingEntry struct {
	Wall     int      `json:"wall"`
	From     mm       `json:"from_mm"`
	Width    mm       `json:"width_mm"`
	Return   mm       `json:"return_mm"`
	Profiles []string `json:"profiles,omitempty"`
}

type lengthEntry struct {
	place
	Product string   `json:"product"`
	Pool    string   `json:"pool"`
	For     string   `json:"for"`
	Wall    int      `json:"wall,omitempty"`
	Run     mm       `json:"run_mm"`
	Length  mm       `json:"length_mm"`
	Part    int      `json:"part,omitempty"`
	Parts   int      `json:"parts,omitempty"`
	Return  bool     `json:"return,omitempty"`
	Ends    []string `json:"ends,omitempty"`
}

type cornerEntry struct {
	Product   string `json:"product"`
	Cut       string `json:"corner_cut"`
	Thickness mm     `json:"thickness_mm"`
	Scribing  mm     `json:"scribing_mm"`
}

type fieldEntry struct {
	Outline ring   `json:"outline_mm"`
	Holes   []ring `json:"holes_mm"`
}

type layoutEntry struct {
	ID          string            `json:"id"`
	Product     string            `json:"product"`
	Kind        string            `json:"kind"`
	Direction   degrees           `json:"direction_deg"`
	Gap         mm                `json:"gap_mm"`
	Kerf        mm                `json:"kerf_mm"`
	Joint       string            `json:"joint"`
	Rules       rulesEntry        `json:"rules"`
	Pattern     *patternEntry     `json:"pattern,omitempty"`
	Planks      int               `json:"planks"`
	LowerBound  *int              `json:"lower_bound_planks"`
	Certificate *certificateEntry `json:"certificate"`
	Blocks      *blocksEntry      `json:"blocks,omitempty"`
	Pieces      []pieceEntry      `json:"pieces"`
	Racked      *rackedEntry      `json:"racked,omitempty"`
}

type rackedEntry struct {
	Shortest mm    `json:"shortest_mm"`
	Longest  mm    `json:"longest_mm"`
	Width    mm    `json:"width_mm"`
	Least    int64 `json:"least"`
	Most     int64 `json:"most"`
}

type blocksEntry struct {
	Origin spot     `json:"origin_mm"`
	Angle  *degrees `json:"angle_deg,omitempty"`
	Pitch  *mm      `json:"pitch_mm,omitempty"`
	Depth  *mm      `json:"depth_mm,omitempty"`
	Slant  *mm      `json:"slant_mm,omitempty"`
}

type rulesEntry struct {
	LeastEnd     mm `json:"least_end"`
	LeastStagger mm `json:"least_stagger"`
	LeastRow     mm `json:"least_row"`
	LongestRun   mm `json:"longest_run"`
	LeastLineUp  mm `json:"least_line_up"`
}

type patternEntry struct {
	Name   string `json:"name"`
	Phase  mm     `json:"phase_mm"`
	Phases []mm   `json:"field_phases_mm,omitempty"`
	Shifts []mm   `json:"shifts_mm"`
}

type pieceEntry struct {
	Row     int    `json:"row"`
	Seq     int    `json:"seq"`
	At      ring   `json:"at_mm"`
	Holes   []ring `json:"holes_mm"`
	Stock   int    `json:"stock"`
	InStock box    `json:"in_stock_mm"`
	Hand    string `json:"hand,omitempty"`
}

type stockEntry struct {
	Product string `json:"product"`
	Pool    string `json:"pool"`
	Number  int    `json:"number"`
	Length  mm     `json:"length_mm"`
	Width   mm     `json:"width_mm"`
	Hand    string `json:"hand,omitempty"`
}

type poolEntry struct {
	Product     string            `json:"product"`
	Pool        string            `json:"pool"`
	Planks      int               `json:"planks"`
	LowerBound  *int              `json:"lower_bound_planks"`
	AnyRows     int               `json:"lower_bound_any_rows"`
	ByEye       int               `json:"planned_by_eye_planks"`
	AllPhases   bool              `json:"all_phases,omitempty"`
	Spots       []spotEntry       `json:"spots,omitempty"`
	Certificate *certificateEntry `json:"certificate"`
}

type spotEntry struct {
	Hand   string `json:"hand"`
	At     spot   `json:"at_mm"`
	Pieces int    `json:"pieces"`
}

type certificateEntry struct {
	Rows   []certifiedRow `json:"rows"`
	Values []valueStep    `json:"values"`
	Plank  int64          `json:"plank"`
}

type certifiedRow struct {
	Length mm     `json:"row_length_mm"`
	Width  mm     `json:"row_width_mm"`
	Edges  string `json:"edges"`
	Count  int64  `json:"count"`
	Price  int64  `json:"price"`
}

type valueStep struct {
	From   mm    `json:"from_mm"`
	Weight int64 `json:"weight"`
}

type trimEntry struct {
	Product     string           `json:"product"`
	Pool        string           `json:"pool"`
	StockLength mm               `json:"stock_length_mm"`
	Kerf        mm               `json:"kerf_mm"`
	Bars        []barEntry       `json:"bars"`
	LowerBound  *int64           `json:"lower_bound_bars"`
	Proven      bool             `json:"proven"`
	Searched    bool             `json:"searched"`
	Remnants    bool             `json:"remnants"`
	Runs        []runEntry       `json:"runs,omitempty"`
	Certificate *trimCertificate `json:"certificate"`
}

type runEntry struct {
	Length mm    `json:"length_mm"`
	Least  mm    `json:"least_part_mm"`
	Parts  []mm  `json:"parts_mm"`
	Count  int64 `json:"count"`
	ByRule bool  `json:"by_rule"`
}

type choiceEntry struct {
	Product     string             `json:"product"`
	Pool        string             `json:"pool"`
	Kerf        mm                 `json:"kerf_mm"`
	Stocks      []stockChoice      `json:"stocks"`
	Cost        int64              `json:"cost"`
	LowerBound  int64              `json:"lower_bound_cost"`
	Proven      bool               `json:"proven"`
	Searched    bool               `json:"searched"`
	Runs        []runEntry         `json:"runs,omitempty"`
	Certificate *choiceCertificate `json:"certificate"`
}

type stockChoice struct {
	Product string `json:"product"`
	Pool    string `json:"pool"`
	Length  mm     `json:"length_mm"`
	Price   int64  `json:"price"`
	Limit   int    `json:"limit"`
}

type choiceCertificate struct {
	Cuts    []weightEntry       `json:"cuts"`
	Bars    []int64             `json:"bars"`
	Further []choiceCertificate `json:"further,omitempty"`
}

type barEntry struct {
	Cuts  []mm  `json:"cuts_mm"`
	Count int64 `json:"count"`
}

type trimCertificate struct {
	Cuts    []weightEntry     `json:"cuts"`
	Bar     int64             `json:"bar"`
	Further []trimCertificate `json:"further,omitempty"`
}

type weightEntry struct {
	Length mm    `json:"length_mm"`
	Weight int64 `json:"weight"`
}

type materialEntry struct {
	Product  string      `json:"product"`
	Unit     string      `json:"unit"`
	Bought   int64       `json:"bought"`
	Laid     int64       `json:"laid"`
	Spare    int64       `json:"spare"`
	Attic    int64       `json:"attic"`
	Returned int64       `json:"returned"`
	LeftOver int64       `json:"left_over"`
	Waste    int64       `json:"waste"`
	Piece    *int64      `json:"piece"`
	PerSold  dec         `json:"per_sold_unit"`
	Hands    *handsEntry `json:"hands,omitempty"`
}

type handsEntry struct {
	Packs  string `json:"packs"`
	Left   int64  `json:"left"`
	Right  int64  `json:"right"`
	InPack int    `json:"pieces_per_pack"`
}

type quantityEntry struct {
	place
	Item       string `json:"item"`
	MeasuredBy string `json:"measured_by"`
	Factor     *dec   `json:"factor"`
	Waste      dec    `json:"waste_pct"`
	Quantity   dec    `json:"quantity"`
	Unit       string `json:"unit"`
	Bags       *dec   `json:"bags,omitempty"`
}

type wasteEntry struct {
	LeastKept mm              `json:"least_kept_mm"`
	OldFloors []oldFloorEntry `json:"old_floors"`
	Goods     []goodsEntry    `json:"goods"`
	Unpacked  []unpackedEntry `json:"unpacked"`
}

type oldFloorEntry struct {
	OldFloor  string `json:"old_floor"`
	Thickness mm     `json:"thickness_mm"`
	Weight    dec    `json:"weight_kg_a_m2"`
}

type goodsEntry struct {
	Product       string `json:"product"`
	Covering      bool   `json:"covering,omitempty"`
	Length        mm     `json:"length_mm"`
	Width         mm     `json:"width_mm"`
	Thickness     mm     `json:"thickness_mm"`
	Weight        dec    `json:"weight_kg"`
	Pieces        *dec   `json:"pieces_per_sold_unit,omitempty"`
	Area          *dec   `json:"area_m2,omitempty"`
	Packing       dec    `json:"packing_m3"`
	PackingWeight dec    `json:"packing_kg"`
}

type unpackedEntry struct {
	place
	Product string `json:"product"`
	Sold    dec    `json:"sold_units"`
}

type useEntry struct {
	place
	Product string `json:"product"`
	Amount  int64  `json:"amount"`
}

type termsEntry struct {
	Suppliers []supplierTerms `json:"suppliers"`
	Prices    []priceTerms    `json:"prices"`
	Trades    []tradeTerms    `json:"trades"`
	Extras    []extraTerms    `json:"extras"`
}

type supplierTerms struct {
	Supplier      string  `json:"supplier"`
	MinimumOrder  string  `json:"minimum_order"`
	Charge        string  `json:"delivery_charge"`
	FreeFrom      *string `json:"free_from"`
	OrderDiscount dec     `json:"order_discount_pct"`
	DiscountFrom  *string `json:"order_discount_from"`
	Paid          string  `json:"paid_already"`
	PayableStep   *string `json:"payable_step"`
}

type priceTerms struct {
	Product  string       `json:"product"`
	Supplier string       `json:"supplier"`
	Price    dec          `json:"list_price"`
	PricePer string       `json:"price_per"`
	Breaks   []breakEntry `json:"breaks"`
	Discount dec          `json:"discount_pct"`
	Charge   string       `json:"line_charge"`
	Tax      dec          `json:"tax_pct"`
}

type tradeTerms struct {
	Trade    string `json:"trade"`
	Wage     dec    `json:"wage"`
	Burden   dec    `json:"burden_pct"`
	Overtime dec    `json:"overtime_factor"`
}

type extraTerms struct {
	Description string `json:"description"`
	UnitCost    dec    `json:"unit_cost"`
}

type orderEntry struct {
	Supplier        string      `json:"supplier"`
	Name            string      `json:"supplier_name"`
	Number          string      `json:"number"`
	For             string      `json:"for"`
	NeededBy        *string     `json:"needed_by"`
	OrderBy         *string     `json:"order_by"`
	Weight          dec         `json:"weight_kg"`
	Lines           []lineEntry `json:"lines"`
	Goods           string      `json:"goods"`
	MinimumOrder    string      `json:"minimum_order"`
	Charge          string      `json:"delivery_charge"`
	FreeFrom        *string     `json:"free_from"`
	DiscountPercent dec         `json:"order_discount_pct"`
	DiscountFrom    *string     `json:"order_discount_from"`
	Discount        string      `json:"order_discount"`
	Delivery        string      `json:"delivery"`
	Supplement      string      `json:"supplement"`
	Net             string      `json:"net"`
	Taxes           []taxEntry  `json:"taxes"`
	Tax             string      `json:"tax"`
	Gross           string      `json:"gross"`
	PaidAlready     string      `json:"paid_already"`
	Paid            string      `json:"paid"`
	PayableStep     *string     `json:"payable_step"`
	Rounding        string      `json:"rounding"`
	Payable         string      `json:"payable"`
}

type lineEntry struct {
	Product       string       `json:"product"`
	Description   string       `json:"description"`
	Quantity      dec          `json:"quantity"`
	Unit          string       `json:"unit"`
	SoldBy        string       `json:"sold_by"`
	Packs         *dec         `json:"packs"`
	PiecesPerPack *int         `json:"pieces_per_pack"`
	Pieces        *dec         `json:"pieces"`
	FullPallets   *int64       `json:"full_pallets"`
	PartPallet    *int64       `json:"packs_on_part_pallet"`
	Price         dec          `json:"price"`
	PricePer      string       `json:"price_per"`
	UnitsPerSold  dec          `json:"units_per_sold"`
	ListPrice     dec          `json:"list_price"`
	Breaks        []breakEntry `json:"breaks"`
	Discount      dec          `json:"discount_pct"`
	Charge        string       `json:"line_charge"`
	Net           string       `json:"net"`
	Tax           dec          `json:"tax_pct"`
	Kind          string       `json:"kind"`
}

type breakEntry struct {
	From  dec `json:"from_quantity"`
	Price dec `json:"price"`
}

type taxEntry struct {
	Percent  dec    `json:"tax_pct"`
	Discount string `json:"order_discount"`
	Base     string `json:"base"`
	Tax      string `json:"tax"`
}

type labourEntry struct {
	place
	Operation    string `json:"operation"`
	Trade        string `json:"trade"`
	Quantity     dec    `json:"quantity"`
	HoursPerUnit dec    `json:"hours_per_unit"`
	Repeat       int    `json:"repeat,omitempty"`
	Factor       *dec   `json:"learning_factor,omitempty"`
	LeastHours   dec    `json:"least_hours"`
	Hours        dec    `json:"hours"`
	Wage         dec    `json:"wage"`
	Burden       dec    `json:"burden_pct"`
	Overtime     dec    `json:"overtime_factor"`
	CallOut      bool   `json:"call_out,omitempty"`
	Cost         string `json:"cost"`
}

type extraEntry struct {
	Description string `json:"description"`
	Per         string `json:"per"`
	Times       int    `json:"times"`
	Quantity    dec    `json:"quantity"`
	UnitCost    dec    `json:"unit_cost"`
	Amount      string `json:"amount"`
}

type costEntry struct {
	Category string `json:"category"`
	Amount   string `json:"amount"`
}

type priceEntry struct {
	PurchaseTaxIsCost      bool   `json:"purchase_tax_is_cost"`
	Material               string `json:"material"`
	Labour                 string `json:"labour"`
	Other                  string `json:"other"`
	MaterialContingencyPct dec    `json:"material_contingency_pct"`
	LabourContingencyPct   dec    `json:"labour_contingency_pct"`
	OtherContingencyPct    dec    `json:"other_contingency_pct"`
	MaterialContingency    string `json:"material_contingency"`
	LabourContingency      string `json:"labour_contingency"`
	OtherContingency       string `json:"other_contingency"`
	Contingency            string `json:"contingency"`
	OverheadPct            dec    `json:"overhead_pct"`
	Overhead               string `json:"overhead"`
	Cost                   string `json:"cost"`
	ProfitPct              dec    `json:"profit_pct"`
	ProfitBasis            string `json:"profit_basis"`
	Step                   string `json:"price_step"`
	Profit                 string `json:"profit"`
	Net                    string `json:"net"`
	TaxName                string `json:"tax_name"`
	TaxPct                 dec    `json:"tax_pct"`
	Tax                    string `json:"tax"`
	Gross                  string `json:"gross"`
	RetentionPct           dec    `json:"retention_pct"`
	Retention              string `json:"retention"`
	Margin                 dec    `json:"margin"`
	Markup                 dec    `json:"markup"`
}

type optionEntry struct {
	Option     string `json:"option"`
	Note       string `json:"note"`
	Apartments int    `json:"apartments"`
	Cost       string `json:"cost"`
	Profit     string `json:"profit"`
	Net        string `json:"net"`
	Margin     dec    `json:"margin"`
	Hours      dec    `json:"hours"`
	Packs      dec    `json:"packs"`
	Difference string `json:"difference"`
}

// takeoffEntry is a room as laid beside the takeoff's.
type takeoffEntry struct {
	Type      string `json:"type"`
	Room      string `json:"room"`
	Times     int    `json:"times"`
	Unit      string `json:"unit"`
	Area      dec    `json:"area"`
	Given     dec    `json:"takeoff_area"`
	Perimeter mm     `json:"takeoff_perimeter_mm"`
	Openings  int    `json:"takeoff_openings"`
	Verdict   string `json:"verdict"`
	Price     string `json:"price"`
	OnTakeoff string `json:"price_on_takeoff"`
	Source    string `json:"source"`
}

type riskEntry struct {
	Seed        int64       `json:"seed"`
	Fewer       dec         `json:"fewer_hours_pct"`
	More        dec         `json:"more_hours_pct"`
	Breakage    dec         `json:"breakage_pct"`
	PriceRise   dec         `json:"price_rise_pct"`
	Spare       dec         `json:"breakage_bought_pct"`
	Target      dec         `json:"target_margin_pct"`
	Costs       []string    `json:"costs"`
	BelowTarget dec         `json:"chance_below_target_pct"`
	Loss        dec         `json:"chance_of_loss_pct"`
	Prices      []riskPrice `json:"prices"`
}

type riskPrice struct {
	Confidence int    `json:"confidence_pct"`
	Price      string `json:"price"`
}

type shareEntry struct {
	place
	Material    string `json:"material"`
	Labour      string `json:"labour"`
	Other       string `json:"other"`
	Contingency string `json:"contingency"`
	Overhead    string `json:"overhead"`
	Profit      string `json:"profit"`
	Price       string `json:"price"`
}

type problemEntry struct {
	Code      string `json:"code"`
	Severity  string `json:"severity"`
	At        string `json:"at"`
	Apartment string `json:"apartment"`
	Type      string `json:"type"`
	Room      string `json:"room"`
	Rule      string `json:"rule"`
	Row       int    `json:"row,omitempty"`
	Text      string `json:"text"`
	Expected  string `json:"expected"`
	Remedy    string `json:"remedy"`
}

type checkEntry struct {
	Name  string `json:"name"`
	OK    bool   `json:"ok"`
	Left  string `json:"left"`
	Right string `json:"right"`
}
