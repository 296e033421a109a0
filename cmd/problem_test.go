package cmd

// withoutScript is the codes that no script provokes, in alphabetical order;
// TestEveryCodeHasAScript wants it exact. nothing-to-price guards callers of
// the estimate itself: in a workbook, table-empty is said first.
var withoutScript = []string{"nothing-to-price"}
