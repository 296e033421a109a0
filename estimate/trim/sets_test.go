package trim

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"laybill/estimate/measure"
	"laybill/estimate/published"
)

// instance is one order of the open benchmark sets and what is known of it.
type instance struct {
	set, name string
	order     Order
	optimum   int64 // or the best cost known
	published bool  // the optimum is proven
}

// openData is the folder of the cutting-stock data beside the repository.
func openData(t testing.TB) string {
	t.Helper()
	return published.Path(t, "benchmarks", "cutting-stock", "open")
}

// literature reads the sets with published optima (BPPLIB: Delorme, Iori,
// Martello 2018; optima from the bound list of BPPLib.jl). "by-construction"
// values are not taken as proven.
func literature(t testing.TB) []instance {
	t.Helper()
	dir := openData(t)
	orders := map[string]Order{}
	files, err := filepath.Glob(filepath.Join(dir, "*.csp.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		readOrders(t, f, orders)
	}
	var all []instance
	for _, r := range readTable(t, filepath.Join(dir, "optima.csv")) {
		o, ok := orders[r["instance"]]
		if !ok {
			t.Fatalf("no data for %s", r["instance"])
		}
		set := r["family"]
		if set == "ai" || set == "ani" {
			set += "-" + strings.SplitN(r["instance"], "_", 2)[0]
		}
		if set == "gi" {
			set += "-" + r["n_types"]
		}
		all = append(all, instance{set, r["instance"], o, number(t, r["optimum"]), r["optimum_status"] == "published"})
	}
	return all
}

func readOrders(t testing.TB, file string, orders map[string]Order) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		var name string
		var types, capacity int
		if _, err := fmt.Sscan(lines.Text(), &name, &types, &capacity); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		o := Order{Stocks: []Stock{{measure.Length(capacity), 1, 0}}}
		for range types {
			lines.Scan()
			var c Cut
			if _, err := fmt.Sscan(lines.Text(), &c.Length, &c.Count); err != nil {
				t.Fatalf("%s: %v", file, err)
			}
			o.Cuts = append(o.Cuts, c)
		}
		orders[name] = o
	}
}

// trimJobs reads the floor-trim jobs, made up for this project, with certified
// bounds.
func trimJobs(t testing.TB) []instance {
	t.Helper()
	var all []instance
	for _, r := range readTable(t, filepath.Join(openData(t), "trim-jobs.csv")) {
		o := Order{Kerf: measure.Length(number(t, r["kerf_mm"])) * mm}
		for _, s := range strings.Split(r["stocks"], ";") {
			length, price, _ := strings.Cut(s, "@")
			price, limit, limited := strings.Cut(price, "x")
			stock := Stock{Length: measure.Length(number(t, length)) * mm, Price: number(t, price)}
			if limited {
				stock.Limit = int(number(t, limit))
			}
			o.Stocks = append(o.Stocks, stock)
		}
		for _, p := range strings.Fields(r["pieces"]) {
			length, count, _ := strings.Cut(p, ":")
			o.Cuts = append(o.Cuts, Cut{measure.Length(number(t, length)) * mm, int(number(t, count))})
		}
		all = append(all, instance{r["group"], r["job"], o, number(t, r["best_known"]), r["status"] == "optimal"})
	}
	return all
}

func readTable(t testing.TB, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var table []map[string]string
	for _, row := range rows[1:] {
		r := map[string]string{}
		for i, h := range rows[0] {
			r[h] = row[i]
		}
		table = append(table, r)
	}
	return table
}

func number(t testing.TB, text string) int64 {
	t.Helper()
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// judge checks a plan against what is known of the instance.
func judge(in instance, p Plan) string {
	if f := flaw(in.order, p); f != "" {
		return f
	}
	if in.published && (p.Cost < in.optimum || p.LowerBound > in.optimum) {
		return fmt.Sprintf("cost %d, bound %d contradict the published optimum %d", p.Cost, p.LowerBound, in.optimum)
	}
	return ""
}

// sample is how many instances of each set the quick test skips between two
// that it solves, and whether each must be proven optimal.
var sample = map[string]struct {
	every  int
	proven bool
}{
	"falkenauer-u":       {6, true},
	"falkenauer-t":       {9, true},
	"scholl-1":           {24, true},
	"scholl-2":           {24, true},
	"schwerin-1":         {12, true},
	"schwerin-2":         {12, true},
	"waescher-gau":       {2, true},
	"random":             {40, true},
	"hard28":             {8, false},
	"trimb-s-1-measured": {12, true},
	"trimb-s-5-drawn":    {7, true},
	"trimb-m-1-drawn":    {9, true},
	"trimb-m-1-measured": {9, true},
	"trimb-m-5-drawn":    {15, true},
	"threshold-m-5":      {1, true},
	"threshold-m-60":     {1, true},
	"threshold-s-200":    {1, true},
	"remnant-m-1":        {1, true},
	"remnant-m-20":       {3, false},
}

// TestSample solves every so many instances of the open sets: no result may
// contradict what is published, and the certificate must hold.
func TestSample(t *testing.T) {
	count := map[string]int{}
	for _, in := range append(literature(t), trimJobs(t)...) {
		rule, ok := sample[in.set]
		count[in.set]++
		if !ok || count[in.set]%rule.every != 0 {
			continue
		}
		t.Run(in.set+"/"+in.name, func(t *testing.T) {
			p := mustSolve(t, in.order)
			if wrong := judge(in, p); wrong != "" {
				t.Fatal(wrong)
			}
			if rule.proven && !p.Proven {
				t.Errorf("cost %d, bound %d: not proven", p.Cost, p.LowerBound)
			}
			if got := p.Certificate.Bound(in.order); got > in.optimum && in.published {
				t.Errorf("the certificate proves %d, above the published optimum %d", got, in.optimum)
			} else if got < p.Certified {
				t.Errorf("the certificate proves %d, the plan says %d", got, p.Certified)
			}
			if wrong := misweighed(in.order, *p.Certificate); wrong != "" {
				t.Error(wrong)
			}
		})
	}
}
