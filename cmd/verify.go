package cmd

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"laybill/estimate/proof"
)

func (a *app) verifyCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "verify RESULT.json",
		Short: "prove a result file from scratch",
		Long: `Reads a result file that price wrote with --json, lays the pieces back into the
rooms, cuts them back out of the planks and adds up every amount again, with
none of the code that made it. RESULT may be - for standard input.`,
		Example: `  laybill verify job.json
  laybill price job.xlsx --json - | laybill verify -`,
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error { return a.verify(c.Context(), args[0]) },
	}
}

func (a *app) verify(ctx context.Context, path string) error {
	report, err := a.prove(ctx, path)
	if err != nil {
		return err
	}
	for _, claim := range report.Claims {
		a.print(claimText(claim))
	}
	if !report.OK() {
		a.print(fmt.Sprintf("%s does not hold\n", path))
		return errNotAccepted
	}
	a.print(fmt.Sprintf("%s holds: %s\n", path, plural(len(report.Claims), "claim")))
	return nil
}

func (a *app) prove(ctx context.Context, path string) (proof.Report, error) {
	a.progress.Show("proving " + path)
	defer a.progress.Clear()
	if path == stream {
		content, err := a.readStream(ctx)
		if err != nil {
			return proof.Report{}, err
		}
		return checked("standard input", bytes.NewReader(content))
	}
	file, err := os.Open(path)
	if err != nil {
		return proof.Report{}, cannotRead(path, err)
	}
	a.opened = append(a.opened, file)
	return checked(path, file)
}

func checked(path string, r io.Reader) (proof.Report, error) {
	report, err := proof.Check(r)
	return report, inFile(path, err)
}

// claimText is a claim on one line, and below it where it fails.
func claimText(c proof.Claim) string {
	if c.OK {
		return fmt.Sprintf("holds  %s: %s\n", c.Name, printable(c.Left))
	}
	text := fmt.Sprintf("FAILS  %s: %s, not %s\n", c.Name, printable(c.Left), printable(c.Right))
	if c.Place != "" {
		text += fmt.Sprintf("       at %s\n", printable(c.Place))
	}
	if c.Detail != "" {
		text += fmt.Sprintf("       %s\n", printable(c.Detail))
	}
	return text
}
