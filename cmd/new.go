package cmd

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"laybill/sheet/form"
	"laybill/sheet/in"
	"laybill/sheet/table"
	"laybill/templates"
)

type newOptions struct {
	units string
	demo  bool
	from  string // job to copy
}

func (a *app) newCommand() *cobra.Command {
	var options newOptions
	command := &cobra.Command{
		Use:   "new FILE.xlsx | DIR/",
		Short: "make a job workbook to fill in",
		Long: `Makes a job workbook with a sheet for each table: headings with notes, drop-down
lists, and a first sheet that says in which order to fill it in. With --demo it
holds a complete invented job, with --from the tables of another: a workbook, or
a folder of CSV files. Columns of your own stay behind. A name that ends in /
makes a folder with a CSV file for each table. What exists is never overwritten.`,
		Example: `  laybill new job.xlsx                     metric
  laybill new job.xlsx --units imperial    feet, inches and square feet
  laybill new demo.xlsx --demo             the invented demo building
  laybill new next.xlsx --from job.xlsx    a new workbook with the tables of job.xlsx
  laybill new job/ --from job.xlsx         the same as a folder of CSV files`,
		Args: func(c *cobra.Command, args []string) error {
			if options.from != "" && (options.demo || c.Flags().Changed("units")) {
				return fmt.Errorf("--from brings the job and its units; leave --demo and --units out")
			}
			return cobra.ExactArgs(1)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return a.makeBook(c.Context(), args[0], options) },
	}
	command.Flags().StringVar(&options.units, "units", string(templates.Metric), "units of the workbook: metric or imperial")
	command.Flags().BoolVar(&options.demo, "demo", false, "fill it with the invented demo building")
	command.Flags().StringVar(&options.from, "from", "", "fill it with the tables of the job `FILE`")
	return command
}

func (a *app) makeBook(ctx context.Context, path string, options newOptions) error {
	if err := newFile(path); err != nil {
		return err
	}
	fill, err := a.fill(ctx, options)
	if err != nil {
		return err
	}
	out := &outputs{stdout: a.stdout}
	defer out.discard()
	if isFolder(path) {
		err = out.writeTables(ctx, path, fill)
	} else {
		err = out.write(ctx, path, func(w io.Writer) error { return form.Write(w, fill) })
	}
	if err != nil {
		return err
	}
	if err := out.commit(ctx); err != nil {
		return err
	}
	if path != stream {
		a.print(fmt.Sprintf("Written: %s\nFill it in, then run: laybill check %s\n", path, path))
	}
	return nil
}

// fill is what the new workbook holds. A job with errors is not copied: what
// cannot be read would be lost.
func (a *app) fill(ctx context.Context, options newOptions) (form.Fill, error) {
	if options.from == "" {
		system, err := systemNamed(options.units)
		if options.demo {
			return templates.Demo(system), err
		}
		return templates.Blank(system), err
	}
	b, err := a.openBook(ctx, options.from)
	if err != nil {
		return form.Fill{}, err
	}
	j, problems := in.Read(b)
	if problems.HasErrors() {
		return form.Fill{}, a.refuse(priceOptions{input: options.from}, problems)
	}
	a.progress.Clear()
	return templates.Filled(j.Settings, in.Texts(b)), nil
}

// writeTables writes a CSV file for each table into a new folder.
func (o *outputs) writeTables(ctx context.Context, folder string, fill form.Fill) error {
	if err := o.makeFolder(filepath.Clean(folder)); err != nil {
		return err
	}
	for i := range table.Tables {
		t := &table.Tables[i]
		path := filepath.Join(folder, t.Sheet+".csv")
		if err := o.write(ctx, path, func(w io.Writer) error { return form.WriteCSV(w, fill, t) }); err != nil {
			return err
		}
	}
	return nil
}

func systemNamed(word string) (templates.System, error) {
	for _, system := range templates.Systems {
		if strings.EqualFold(word, string(system)) {
			return system, nil
		}
	}
	return "", usagef("--units %s is not known; it is metric or imperial", word)
}

// isFolder tells a path that stands for a folder of CSV files.
func isFolder(path string) bool { return strings.HasSuffix(filepath.ToSlash(path), "/") }

// newFile makes sure that the path is a workbook's or a folder's and not taken.
func newFile(path string) error {
	if path == stream {
		return nil
	}
	if !isFolder(path) {
		if err := workbookName(path); err != nil {
			return err
		}
	}
	if _, err := os.Lstat(filepath.Clean(path)); err == nil {
		return fileError{path, errors.New("it exists already and is left as it is; choose another name")}
	}
	return nil
}

func workbookName(path string) error {
	if !strings.HasSuffix(strings.ToLower(path), ".xlsx") {
		return usagef("%s: the name of a workbook ends in .xlsx", path)
	}
	return nil
}
