package cmd

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"laybill/estimate/proof"
)

const leftInRooms = "waste: lifted, cut off and unpacked in the rooms"

// wasteOf lays a job of faultJobs over an old floor and counts its waste, in packing
// of all goods. Its factors make a thousandth of a unit count.
func wasteOf(t *testing.T, j faultJob) []byte {
	sheets := map[string]string{
		"Old floors.csv": "Old floor,Thickness,Weight per m2\nLino,3,4\n",
		"Rooms.csv":      "Apartment type,Room,Build-up,Length,Width,Lift old floor\nA,Living,Floor,5200,3900,Lino\nA,Bed,Floor,3600,2900,Lino\nA,Lobby,Soft,2000,1500,Lino\n",
		"Products.csv": "Code,Description,Kind,Supplier,Length,Width,Pieces per pack,Pattern,Longest run,Joint,Shortest length,Area per pack,Sold by,Price,Price per,Thickness,Weight,Packing,Packing weight,Corner cut,Spread\n" +
			"OAK,Oak plank,plank,NOR," + j.plank + ",pack,15,m2,9,14,0.004,0.7,,\nSKIR,Skirting,trim,NOR,2400,95,,,,,,,piece,5,,18,2.6,0.0006,0.1,mitred,\n" +
			"DOOR,Doorway profile,trim,NOR,930,40,,,,,,,piece,9,,4,0.3,0.0001,0.01,,\nEXP,Expansion profile,trim,NOR,2700,40,,,,,,,piece,12,,4,0.9,0.0001,0.01,,\n" +
			"CAR,Carpet,roll,NOR,,,,,,,,,m2,20,,8,2,0.001,0.2,,\nGLUE,Adhesive,adhesive,NOR,,,,,,,,,tub,20,,,,0.002,0.4,,13\n" +
			"SKIP,Skip,each,NOR,,,,,,,,,each,265,,,1000,,,,4.6\n",
		"Build-ups.csv": "Build-up,Item,Measured by,Factor,Waste %\nFloor,OAK,laid area,,\nFloor,LAY,laid area,,\nFloor,EXP,expansion profiles,,\nFloor,SKIR,skirting,,\n" +
			"Floor,SKIP,waste volume,1500,\nFloor,SKIP,waste weight,1000,\nSoft,CAR,laid area,1.1,10\nSoft,GLUE,laid area,,3\nSoft,SKIP,waste volume,1500,\nSoft,SKIP,waste weight,1000,\n",
	}
	if j.rows() {
		sheets["Repairs.csv"] = "Apartment,Room,Product,Damaged planks,Length,From stock,Method,Rows to take up\nE1,Hall,OAK,3,,2,Take up,2\n"
		sheets["Build-ups.csv"] += "Take up,SKIP,waste volume,1500,\nTake up,SKIP,waste weight,1000,\n"
	}
	maps.Copy(sheets, j.sheets) // rooms of another shape are over no old floor
	j.sheets = sheets
	return j.result(t)
}

// Waste is recounted whichever way the floor is laid, and a unit of the last
// decimal more in any of its quantities is noticed.
func TestWasteIsRecountedInEveryWay(t *testing.T) {
	for _, j := range faultJobs {
		t.Run(j.way, func(t *testing.T) { everyWasteRecounted(t, wasteOf(t, j)) })
	}
}

func TestWasteOfTheDemoIsRecounted(t *testing.T) { everyWasteRecounted(t, demoResult(t)) }

// everyWasteRecounted raises all quantities of waste by a unit of their last
// decimal: each must fail.
func everyWasteRecounted(t *testing.T, file []byte) {
	t.Helper()
	if claim := claimOf(t, file, leftInRooms); !claim.OK {
		t.Fatal(claim.Detail)
	}
	var result map[string]any
	decoder := json.NewDecoder(bytes.NewReader(file))
	decoder.UseNumber()
	if err := decoder.Decode(&result); err != nil {
		t.Fatal(err)
	}
	raised := 0
	for _, entry := range result["quantities"].([]any) {
		if q := entry.(map[string]any); strings.HasPrefix(q["measured_by"].(string), "waste ") {
			n, err := strconv.ParseFloat(q["quantity"].(string), 64)
			if err != nil {
				t.Fatal(err)
			}
			q["quantity"] = strconv.FormatFloat(n+0.0001, 'f', 4, 64)
			raised++
		}
	}
	changed, err := json.Marshal(result)
	if err != nil {
		t.Fatal(err)
	}
	claim := claimOf(t, changed, leftInRooms)
	noticed := min(raised, 5)
	if raised > noticed { // the first five are told in full
		if _, more, found := strings.Cut(claim.Detail, "; and "); found {
			n, _ := strconv.Atoi(strings.TrimSuffix(more, " more"))
			noticed += n
		}
	}
	if claim.OK || raised == 0 || noticed != raised {
		t.Errorf("%d of %d quantities of waste are recounted: %s", noticed, raised, claim.Detail)
	}
}

func claimOf(t *testing.T, file []byte, name string) proof.Claim {
	t.Helper()
	report, err := proof.Check(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(report.Claims, func(c proof.Claim) bool { return c.Name == name })
	if i < 0 {
		t.Fatalf("no claim %q", name)
	}
	return report.Claims[i]
}

// Every number that waste is counted from is raised by a quarter, one at a time.
func TestEveryTermOfWasteIsNoticed(t *testing.T) {
	file := wasteOf(t, faultJobs[0])
	var result struct {
		Waste json.RawMessage `json:"waste"`
	}
	if err := json.Unmarshal(file, &result); err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(file, result.Waste)
	for _, n := range termsIn(result.Waste) {
		value, err := strconv.ParseFloat(string(result.Waste[n[0]:n[1]]), 64)
		if err != nil {
			t.Fatal(err)
		}
		if value == 0 {
			continue
		}
		more := strconv.FormatFloat(value*1.25, 'f', -1, 64)
		changed := slices.Concat(file[:at+n[0]], []byte(more), file[at+n[1]:])
		if context := string(result.Waste[max(0, n[0]-120):n[1]]); claimOf(t, changed, leftInRooms).OK {
			t.Errorf("%s instead of the last number of %s is not noticed", more, context)
		}
	}
}

// termsIn finds the numbers behind a colon, in quotes or not.
func termsIn(text []byte) [][2]int {
	var found [][2]int
	for i := 0; i < len(text); i++ {
		if text[i] != ':' {
			continue
		}
		from := i + 1
		if text[from] == '"' {
			from++
		}
		to := from
		for to < len(text) && strings.ContainsRune("0123456789.", rune(text[to])) {
			to++
		}
		if to > from && (text[to] == '"' || text[to] == ',' || text[to] == '}') {
			found = append(found, [2]int{from, to})
		}
	}
	return found
}
