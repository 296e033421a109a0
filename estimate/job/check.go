package job

import "laybill/estimate/problem"

// Finding is something in a job that cannot be meant, or is probably not. It
// says which cells it hangs on, so that a reader can point to them, and can
// drop it when one of them could not be read.
type Finding struct {
	problem.Problem
	Cells []Cell // the first is where the problem is
	Needs []Cell // further cells it was found from
	Cause string // findings with the same code and cause are one; "" stands alone
}

// Cell is a value of the job: a column of a record's row, or a setting.
type Cell struct {
	Row     problem.Ref // the record's place
	Column  string      // the column's key
	Setting string      // the setting's key, of the Job sheet
}

// Check finds what is wrong with the sense of a job whose cells all read well.
func Check(j *Job) []Finding {
	var found []Finding
	for _, check := range []func(*Job) []Finding{
		checkSettings, checkSuppliers, checkProducts, checkOffers, checkPrices, checkBuildUps, checkWork, checkRooms, checkOpenings, checkThrough, checkFixtures, checkReadings, checkSite, checkStoreys, checkRepairs,
	} {
		found = append(found, check(j)...)
	}
	return found
}

func cells(row problem.Ref, columns ...string) []Cell {
	all := make([]Cell, len(columns))
	for i, column := range columns {
		all[i] = Cell{Row: row, Column: column}
	}
	return all
}

func settingCells(keys ...string) []Cell {
	all := make([]Cell, len(keys))
	for i, key := range keys {
		all[i] = Cell{Setting: key}
	}
	return all
}
