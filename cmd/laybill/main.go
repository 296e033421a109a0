// Command laybill estimates plank floors of apartment jobs from a workbook.
package main

import (
	"os"
	"runtime"

	"laybill/cmd"
)

// ballast is never touched, so it takes no memory; but the collector counts it
// and first works when the heap has doubled. Without it a job of a second, whose
// heap starts at a few megabytes, spends a fifth of its time collecting.
const ballast = 48 << 20

func main() {
	heap := make([]byte, ballast)
	code := cmd.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	runtime.KeepAlive(heap)
	os.Exit(code)
}
