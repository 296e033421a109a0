// Command laybill estimates plank floors of apartment jobs from a workbook.
package main

import (
	"os"

	"laybill/cmd"
)

func main() {
	os.Exit(cmd.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
