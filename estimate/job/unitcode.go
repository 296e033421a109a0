package job

// unitCodes are the units of sale by UN/ECE Recommendation 20 (revision 17,
// 2021) and, with X before it, Recommendation 21 for packages: the old codes
// PK, RO and BG are deleted.
var unitCodes = [...]string{
	PerPack:        "XPK", // package
	PerPiece:       "H87", // piece
	PerSquareMetre: "MTK",
	PerSquareFoot:  "FTK",
	PerSquareYard:  "YDK",
	PerMetre:       "MTR",
	PerFoot:        "FOT",
	PerRoll:        "XRO",
	PerBag:         "XBG",
	PerTub:         "XBJ", // bucket
	PerEach:        "EA",
}

// Code is the unit's code on orders.
func (u Unit) Code() string { return unitCodes[u] }
