package in

// faults are planted one at a time in the sound job: old stands in it and is
// replaced by with; want is what must be named, places in the order of sheets.
var faults = []struct{ name, old, with, want string }{
	// Sheets and headings.
	{"required sheet missing", "-- Products --\nCode,Description,Kind", "-- Things --\nNo,Text,Sort", "Things sheet-missing"},
}
