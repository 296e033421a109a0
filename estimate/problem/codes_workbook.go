package problem

// Codes of reading the workbook: sheets, headings and cells.
const (
	SheetMissing    Code = "sheet-missing"
	HeadingMissing  Code = "heading-missing"
	CellMissing     Code = "cell-missing"
	CellUnreadable  Code = "cell-unreadable"
	CellAmbiguous   Code = "cell-ambiguous"
	NameRepeated    Code = "name-repeated"
	NameUnknown     Code = "name-unknown"
	SettingUnknown  Code = "setting-unknown"
	ChoiceUnknown   Code = "choice-unknown"
	ValueOutOfRange Code = "value-out-of-range"
)

var workbookCodes = map[Code]Entry{
	SheetMissing:    {Error, "a sheet is missing", "The job needs this table and no sheet of that name, or with its headings, was found.", "Add the sheet, or rename the sheet that holds the table."},
	HeadingMissing:  {Error, "a heading is missing", "The table was found but a column it needs was not.", "Write the heading in the table's heading row, or rename the column that holds these values."},
	CellMissing:     {Error, "a value is missing", "The row needs a value in this cell.", "Fill in the cell."},
	CellUnreadable:  {Error, "a value cannot be read", "The cell does not hold what the column is for.", "Write the value in one of the accepted ways."},
	CellAmbiguous:   {Error, "a value can be read in two ways", "Both readings are shown; Laybill does not guess.", "Write the value so that it can be read in one way only."},
	NameRepeated:    {Error, "a name or code stands twice", "Two rows of one table have the same name, capitals not counted.", "Rename one of them or delete the row that is not meant."},
	NameUnknown:     {Error, "a name or code is not known", "The cell refers to a row of another table that is not there.", "Correct the name, or add the row to the other table."},
	SettingUnknown:  {Warning, "a setting is not known", "The Job sheet names a setting that Laybill does not have; the row is not used.", "Correct the setting's name, or delete the row."},
	ChoiceUnknown:   {Error, "a word is not one of the choices", "The column takes one of a few words.", "Choose one of the words shown."},
	ValueOutOfRange: {Error, "a value is out of range", "The number is outside what the column can mean.", "Correct the number."},
}
