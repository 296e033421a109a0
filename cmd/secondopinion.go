package cmd

import (
	"fmt"
	"io"

	"laybill/estimate"
	"laybill/estimate/proof"
	"laybill/sheet/exchange"
)

// secondOpinion has the result proven before anything of it is written: the
// proof reads the result file as verify would, and its claims join the result's
// checks. A claim that does not hold is a fault of the program.
func (a *app) secondOpinion(result *estimate.Result) error {
	a.progress.Show("proving the result")
	file, into := io.Pipe()
	go func() { into.CloseWithError(exchange.WriteResult(into, result)) }()
	report, err := proof.Check(file)
	file.Close() // ends the writing when the reading ended early
	if err != nil {
		return fmt.Errorf("the result cannot be proven: %w", err)
	}
	for _, claim := range report.Claims {
		if !claim.OK {
			return fmt.Errorf("the result does not hold, so nothing was written: %s: %s, not %s, at %s", claim.Name, claim.Left, claim.Right, claim.Place)
		}
		result.Checks = append(result.Checks, estimate.Check{Name: "proof: " + claim.Name, OK: true, Left: claim.Left, Right: claim.Right})
	}
	return nil
}
