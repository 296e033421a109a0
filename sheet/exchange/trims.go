package exchange

import (
	"fmt"

	"laybill/estimate"
	"laybill/estimate/cutting"
	"laybill/estimate/measure"
	"laybill/estimate/trim"
)

// trims lists the bars of every pool, one entry a stock length.
func trims(r *estimate.Result) []trimEntry {
	var entries []trimEntry
	for i := range r.Cutting {
		pool := &r.Cutting[i]
		for stock := range pool.Stocks {
			e := barsOf(pool, stock)
			if len(pool.Stocks) == 1 {
				e.prove(pool)
			}
			if len(e.Bars) > 0 {
				entries = append(entries, e)
			}
		}
	}
	return entries
}

func barsOf(pool *cutting.Pool, stock int) trimEntry {
	product, name := stockName(pool, stock)
	e := trimEntry{Product: product, Pool: name, StockLength: mm(pool.Stocks[stock].Length), Kerf: mm(pool.Kerf), Remnants: pool.Stocks[stock].Remnant != nil}
	for _, bar := range pool.Plan.Bars {
		if bar.Stock != stock {
			continue
		}
		b := barEntry{Count: int64(bar.Count)}
		for _, cut := range bar.Cuts {
			b.Cuts = append(b.Cuts, mm(cut))
		}
		e.Bars = append(e.Bars, b)
	}
	return e
}

// stockName is the product and pool under which a stock's bars are listed.
func stockName(pool *cutting.Pool, stock int) (product, name string) {
	s := pool.Stocks[stock]
	if s.Remnant == nil {
		return s.Product.Code, pool.Place
	}
	return pool.Product.Code, fmt.Sprintf("%s / remnants of %s, row %d", pool.Place, s.Length.Format(measure.MM), s.Remnant.Ref.Row)
}

// prove adds the bound on bars of a pool with one stock length.
func (e *trimEntry) prove(pool *cutting.Pool) {
	e.LowerBound, e.Proven, e.Runs = &pool.Plan.LowerBound, pool.Plan.Proven, runs(pool)
	if c := pool.Plan.Certificate; c != nil {
		e.Searched = searched(pool.Plan)
		written := trimCertificateOf(*c)
		e.Certificate = &written
	}
}

// searched tells that the bound goes beyond what the certificate proves.
func searched(plan trim.Plan) bool { return plan.Certified < plan.LowerBound }

func trimCertificateOf(c trim.Certificate) trimCertificate {
	written := trimCertificate{Cuts: weights(c), Bar: c.Bars[0]}
	for _, further := range c.Further {
		written.Further = append(written.Further, trimCertificateOf(further))
	}
	return written
}

func weights(c trim.Certificate) []weightEntry {
	var written []weightEntry
	for _, w := range c.Cuts {
		written = append(written, weightEntry{mm(w.Length), w.Weight})
	}
	return written
}

// runs are those of the pool that come in parts.
func runs(pool *cutting.Pool) []runEntry {
	var entries []runEntry
	for _, r := range pool.Plan.Runs {
		e := runEntry{Length: mm(r.Length), Least: mm(pool.Product.LeastEnd), Count: int64(r.Count), ByRule: r.ByRule}
		for _, part := range r.Parts {
			e.Parts = append(e.Parts, mm(part))
		}
		entries = append(entries, e)
	}
	return entries
}

// choices are the pools that are cut from stock of several lengths.
func choices(r *estimate.Result) []choiceEntry {
	var entries []choiceEntry
	for i := range r.Cutting {
		pool := &r.Cutting[i]
		if len(pool.Stocks) < 2 {
			continue
		}
		e := choiceEntry{Product: pool.Product.Code, Pool: pool.Place, Kerf: mm(pool.Kerf), Cost: pool.Plan.Cost, LowerBound: pool.Plan.LowerBound, Proven: pool.Plan.Proven, Runs: runs(pool)}
		for k, stock := range pool.Stocks {
			product, name := stockName(pool, k)
			e.Stocks = append(e.Stocks, stockChoice{Product: product, Pool: name, Length: mm(stock.Length), Price: stock.Price, Limit: stock.Limit})
		}
		if c := pool.Plan.Certificate; c != nil {
			e.Searched = searched(pool.Plan)
			written := choiceCertificateOf(*c)
			e.Certificate = &written
		}
		entries = append(entries, e)
	}
	return entries
}

func choiceCertificateOf(c trim.Certificate) choiceCertificate {
	written := choiceCertificate{Cuts: weights(c), Bars: c.Bars}
	for _, further := range c.Further {
		written.Further = append(written.Further, choiceCertificateOf(further))
	}
	return written
}
