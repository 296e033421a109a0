package problem

// Codes of what lies under a floor.
const (
	LevelsUnfit    Code = "levels-unfit"
	LevelTwice     Code = "level-twice"
	FlatnessBroken Code = "flatness-broken"
	SilicaDust     Code = "silica-dust"
	FilmMissing    Code = "film-missing"
	FilmTraps      Code = "film-traps-moisture"
	HeatResistance Code = "heat-resistance"
)

var subfloorCodes = map[Code]Entry{
	LevelsUnfit:    {Error, "level readings make no surface", "A survey of a room needs three readings or more on its floor that are not in one line, each place once.", "Correct the places, add the missing readings, or delete the rows."},
	LevelTwice:     {Caution, "a depth and level readings are given", "The room has level readings, so the depth of compound comes from them and Level by is not used.", "Leave Level by empty, or delete the readings."},
	FlatnessBroken: {Caution, "a subfloor is not flat enough", "A straightedge laid over two of the room's level readings finds the subfloor further off than its flatness group allows at that distance (DIN 18202 table 3).", "See the sheets Subfloor and Flatness: level or grind as counted there, and check again before laying."},
	SilicaDust:     {Caution, "grinding sets silica dust free", "Grinding concrete or screed raises respirable crystalline silica, limited to 50 micrograms a cubic metre over a shift (29 CFR 1926.1153).", "Grind with a shroud and a dust collector of 25 cfm an inch of wheel and a 99 % filter; indoors with hand grinders over 4 hours a shift with a respirator (table 1). Local law and the employer's exposure plan decide."},
	FilmMissing:    {Caution, "a floor on a mineral subfloor has no vapour film", "A floating wood or laminate floor on screed or concrete needs a film against rising moisture, and its build-up has none (common practice; makers' instructions).", "Add a film to the build-up, or check that the underlay or covering brings one."},
	FilmTraps:      {Caution, "a film may trap moisture in a wood subfloor", "Under a film the wood subfloor cannot dry upwards and may rot (common practice).", "Leave the film out on wood subfloors unless the maker of the floor asks for it."},
	HeatResistance: {Caution, "a covering may hold the heat of the floor back", "Over a heated floor, covering and layers together should resist heat by at most 0.15 m2K/W (EN 1264, limit in practice), and these are above it or not known.", "Fill in Thermal resistance of the layers from their data sheets; choose thinner ones, or ask the designer of the heating."},
}
