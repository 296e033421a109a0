package cmd

import (
	"fmt"

	"github.com/spf13/cobra"

	"laybill/cmd/internal/term"
	"laybill/estimate/problem"
)

func (a *app) explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "explain [CODE]",
		Short: "say what a problem's code means and what to do",
		Long: `Prints a problem code's meaning, its cause and its remedy; without a code, the
list of all codes.`,
		Example: `  laybill explain
  laybill explain cell-unreadable`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeCodes,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				a.listCodes()
				return nil
			}
			return a.explain(args[0])
		},
	}
}

func completeCodes(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	var codes []cobra.Completion
	for _, code := range problem.Codes() {
		codes = append(codes, cobra.CompletionWithDesc(string(code), code.Entry().Title))
	}
	return codes, cobra.ShellCompDirectiveNoFileComp
}

func (a *app) listCodes() {
	table := term.NewTable("Code", "", "Meaning")
	table.TextColumns()
	for _, code := range problem.Codes() {
		entry := code.Entry()
		table.Row(string(code), entry.Severity.String(), entry.Title)
	}
	table.Write(a.stdout)
}

func (a *app) explain(code string) error {
	entry, ok := problem.Explain(code)
	if !ok {
		return usagef("there is no problem code %q; laybill explain lists them all", code)
	}
	a.print(fmt.Sprintf("%s (%s): %s\n", code, entry.Severity, entry.Title))
	a.print(term.Wrap("  Cause: ", entry.Cause))
	a.print(term.Wrap("  Fix:   ", entry.Fix))
	return nil
}
