package table

import "laybill/estimate/job"

// Setting is one row of the Job sheet.
type Setting struct {
	Key      string
	Name     string
	Also     []string
	Kind     Kind // Text, Length, Number, Whole, Percent, Amount, Choice, YesNo or Date
	Required bool
	Choices  []string
	Default  string // in words; for a choice the word itself
	Help     string
}

// Settings are all settings in the order of a new Job sheet.
var Settings = []Setting{
	{Key: "name", Name: "Job name", Also: []string{"Name", "Project"}, Kind: Text, Required: true},
	{Key: "number", Name: "Job number", Also: []string{"Number"}, Kind: Text},
	{Key: "company", Name: "Company", Also: []string{"Our company", "Contractor"}, Kind: Text, Help: "Your own firm: who orders, printed on purchase orders."},
	{Key: "companyaddress", Name: "Company address", Kind: Text},
	{Key: "client", Name: "Client", Kind: Text},
	{Key: "site", Name: "Site", Also: []string{"Site address"}, Kind: Text},
	{Key: "date", Name: "Date", Kind: Date, Help: "Date of the estimate, printed in headers; never today's by itself."},
	{Key: "currency", Name: "Currency", Kind: Text, Required: true, Help: "Code of ISO 4217: EUR, GBP, USD."},
	{Key: "lengthunit", Name: "Length unit", Kind: Choice, Choices: LengthUnits, Required: true, Help: "What a plain number in a length cell means. ft is decimal feet; 12' 6 1/2\" may always be written."},
	{Key: "areaunit", Name: "Area unit", Kind: Choice, Choices: AreaUnits, Default: "m2 for metric jobs, ft2 for feet and inches"},
	{Key: "taxname", Name: "Tax name", Kind: Text, Default: "Tax"},
	{Key: "tax", Name: "Tax %", Kind: Percent, Default: "0"},
	{Key: "materialcontingency", Name: "Material contingency %", Kind: Percent, Default: "0"},
	{Key: "labourcontingency", Name: "Labour contingency %", Also: []string{"Labor contingency %"}, Kind: Percent, Default: "0"},
	{Key: "othercontingency", Name: "Other contingency %", Kind: Percent, Default: "0"},
	{Key: "overhead", Name: "Overhead %", Kind: Percent, Default: "0"},
	{Key: "profit", Name: "Profit %", Kind: Percent, Default: "0"},
	{Key: "profitbasis", Name: "Profit basis", Kind: Choice, Choices: job.ProfitBases, Default: job.OnPrice.String(), Help: "on price: a margin, share of the price. on cost: a markup on the cost."},
	{Key: "pricestep", Name: "Price rounding step", Also: []string{"Price step"}, Kind: Amount, Default: "none", Help: "The price is rounded to the nearest multiple, never below cost."},
	{Key: "breakage", Name: "Breakage %", Kind: Percent, Default: "0", Help: "Planks and tiles bought on top for breakage, in whole pieces."},
	{Key: "attic", Name: "Attic stock %", Also: []string{"Attic stock"}, Kind: Percent, Default: "0", Help: "Spare planks and tiles left for the client, in whole pieces."},
	{Key: "sharing", Name: "Off-cut sharing", Also: []string{"Offcut sharing"}, Kind: Choice, Choices: levelWords(job.SharingLevels), Default: job.LevelApartment.String(), Help: "Off-cuts of one room may be used in another of the same apartment, floor or job."},
	{Key: "packrounding", Name: "Pack rounding", Kind: Choice, Choices: levelWords(job.SharingLevels), Default: job.LevelJob.String(), Help: "Packs are opened for a room, an apartment, a floor or the job."},
	{Key: "deliveries", Name: "Deliveries", Also: []string{"Deliveries by", "Orders by"}, Kind: Choice, Choices: job.DeliveryParts, Default: job.DeliverJob.String(), Help: "Every supplier gets one order for the job, or one for each block, phase or floor, with its own date, delivery charge and minimum order."},
	{Key: "kerf", Name: "Default kerf", Also: []string{"Kerf"}, Kind: Length, Default: "3 mm", Help: "Width of a saw cut (2 to 4 mm, common practice)."},
	{Key: "leastuseful", Name: "Least useful off-cut", Kind: Length, Default: "0 mm", Help: "Off-cuts of trim from this length on are kept for other jobs; 0 keeps none."},
	{Key: "doorwidth", Name: "Door width", Kind: Length, Default: "0.9 m", Help: "Of doors that are only counted."},
	{Key: "purchasetax", Name: "Purchase tax is a cost", Kind: YesNo, Default: "no", Help: "yes when the tax on purchases cannot be recovered."},
	{Key: "start", Name: "Start date", Kind: Date, Help: "First day on which work may begin. Without it there is no programme."},
	{Key: "crews", Name: "Crews", Kind: Whole, Default: "1"},
	{Key: "crewsize", Name: "Crew size", Kind: Whole, Default: "2"},
	{Key: "hoursaday", Name: "Hours a day", Kind: Number, Default: "8"},
	{Key: "callout", Name: "Least call-out hours", Also: []string{"Least call-out", "Call-out hours"}, Kind: Number, Default: "0", Help: "Hours that all work of the job is paid for at least, as for a small repair. What is missing is paid at the wage of the operation with the most hours."},
	{Key: "workingdays", Name: "Working days", Also: []string{"Working week"}, Kind: Choice, Choices: job.WorkingWeeks, Default: job.WorkingWeeks[0], Help: "Days of the week that are worked, first and last; days of the Holidays sheet are not."},
	{Key: "floorstorage", Name: "Floor storage", Kind: Number, Default: "0", Help: "Kilograms of goods that one floor of the building can store at a time; deliveries are held back for it. 0: no limit."},
	{Key: "overtimeafter", Name: "Overtime after hours a day", Also: []string{"Overtime after"}, Kind: Number, Default: "0", Help: "0: no overtime. Hours of the day beyond these are paid at the trade's Overtime factor, with its burden."},
	{Key: "learning", Name: "Learning %", Also: []string{"Learning curve %"}, Kind: Percent, Default: "100", Help: "Of the hours of work that goes faster with practice, for every doubling of like apartments: at 90 the 2nd apartment of a type takes 90 %, the 4th 81 %, the n-th n to the power log2 0.9, in the order of the Apartments sheet. 100: all take as long."},
	{Key: "buildingyear", Name: "Building year", Kind: Whole, Help: "Raises the cautions for asbestos and lead paint where old floors are lifted or repaired."},
	{Key: "entrancefloor", Name: "Entrance floor", Kind: Whole, Default: "0", Help: "Number of the floor at street level, for work measured by carried: 0 where floors count ground, 1, 2; 1 where the first floor is the ground floor."},
	{Key: "lift", Name: "Lift", Kind: YesNo, Default: "no", Help: "yes: goods go up in a lift, and work measured by carried counts each pack and bag once on every floor but the entrance floor."},
	{Key: "retention", Name: "Retention %", Kind: Percent, Default: "0", Help: "Shown, not deducted."},
	{Key: "measuringrule", Name: "Measuring rule", Kind: Choice, Choices: job.MeasuringRules, Default: job.DeductAll.String(), Help: "Voids that are not deducted from the billed area. Purchases, hours and layout do not change."},
	{Key: "subfloor", Name: "Subfloor", Kind: Choice, Choices: job.Subfloors, Default: job.NotSaid.String(), Help: "Of rooms that do not name their own. It decides the usual moisture limits and whether a film is needed."},
	{Key: "flatness", Name: "Flatness group", Kind: Choice, Choices: job.FlatnessGroups, Default: job.Group3.String(), Help: "Of DIN 18202 table 3, asked of surveyed subfloors: group 3 for floors that take coverings, group 4 with raised requirements."},
	{Key: "levelplane", Name: "Levelling plane", Kind: Choice, Choices: job.LevelPlanes, Default: job.Horizontal.String(), Help: "What surveyed floors are levelled to. tilted: the plane may fall with the floor as far as the flatness group allows over the room's longest distance."},
	{Key: "testsper", Name: "Moisture tests per", Kind: Choice, Choices: levelWords(job.SharingLevels), Default: job.LevelApartment.String(), Help: "Three tests for the first 1000 ft2 of mineral subfloor and one for each started further 1000 ft2 (ASTM F2170), counted by room, apartment, floor or job."},
	{Key: "takeofftolerance", Name: "Takeoff tolerance %", Kind: Percent, Default: "2", Help: "How far a room of the Takeoff sheet may be off the room as laid before it is said to differ."},
	{Key: "riskfewer", Name: "Fewer hours %", Kind: Percent, Default: "0", Help: "For the Risk sheet: how much less than estimated the work may take, at most."},
	{Key: "riskmore", Name: "More hours %", Kind: Percent, Default: "0", Help: "For the Risk sheet: how much more than estimated the work may take, at most."},
	{Key: "riskbreakage", Name: "Breakage at most %", Kind: Percent, Default: "0", Help: "For the Risk sheet: the most planks that may break. What goes beyond Breakage % is bought again."},
	{Key: "riskprices", Name: "Price rise at most %", Kind: Percent, Default: "0", Help: "For the Risk sheet: how much a supplier's prices may rise before the order."},
	{Key: "risktarget", Name: "Target margin %", Kind: Percent, Default: "0", Help: "For the Risk sheet: the margin that the job should keep. 0: the chance of a loss."},
	{Key: "seed", Name: "Seed", Kind: Whole, Default: "1", Help: "The same seed gives the same layout."},
}

// LengthUnits and AreaUnits are the words of the units a job may use.
var (
	LengthUnits = []string{"mm", "cm", "m", "in", "ft"}
	AreaUnits   = []string{"m2", "ft2", "yd2"}
)
