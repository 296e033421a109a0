package out

import (
	"io"

	"laybill/estimate"
)

// WriteBid writes the bid as a workbook of its own, to be handed to the client.
// It holds values only: no cost, no margin, and no formula that would lead to
// one.
func WriteBid(w io.Writer, r *estimate.Result) error {
	b := newBook(r)
	defer func() { _ = b.file.Close() }()
	b.valuesOnly = true
	b.bid(b.add("Bid"), ladderRows{})
	return b.write(w)
}
