package estimate

import (
	"context"
	"fmt"
	"testing"

	"laybill/estimate/job"
	"laybill/estimate/shape"
)

// manyApartments is a job of n apartments of five rooms in so many types, every
// second apartment mirrored.
func manyApartments(n, types int) *job.Job {
	j := smallJob()
	floor := j.BuildUps[0]
	profile := j.Products[4]
	j.Rooms, j.Apartments = nil, nil
	for t := range types {
		name := fmt.Sprintf("T%02d", t)
		grow := func(base int64, i int) int64 { return base + int64((t*37+i*53)%29)*17 }
		for i, size := range [][2]int64{{4200, 3100}, {3600, 2900}, {5900, 4300}, {1500, 5200}, {2400, 1900}} {
			outline := shape.Rectangle(shape.Box{X1: mm(grow(size[0], i)), Y1: mm(grow(size[1], i+1))})
			if i == 2 {
				x, y := mm(grow(size[0], i)), mm(grow(size[1], i+1))
				outline = shape.Normalise(shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x, Y: y / 2}, {X: x / 2, Y: y / 2}, {X: x / 2, Y: y}, {X: 0, Y: y}}})
			}
			j.Rooms = append(j.Rooms, &job.Room{Type: name, Name: fmt.Sprintf("Room %d", i+1), BuildUp: floor, Skirting: true, Outline: outline,
				Openings: []job.Opening{{Wall: 0, From: mm(300), Width: mm(900), Profile: profile}}})
		}
	}
	for i := range n {
		j.Apartments = append(j.Apartments, &job.Apartment{Name: fmt.Sprintf("%04d", i+1), Type: fmt.Sprintf("T%02d", i%types), Floor: fmt.Sprint(i / 20), Mirrored: i/types%2 == 1})
	}
	return j
}

// BenchmarkThousandApartments runs 1,000 apartments of five rooms in 20 types.
func BenchmarkThousandApartments(b *testing.B) { benchmark(b, manyApartments(1000, 20)) }

// BenchmarkHundredDifferentApartments runs 100 apartments of five rooms, all
// different.
func BenchmarkHundredDifferentApartments(b *testing.B) { benchmark(b, manyApartments(100, 100)) }

func benchmark(b *testing.B, j *job.Job) {
	b.ReportAllocs()
	for b.Loop() {
		r, _, err := Run(context.Background(), j, nil)
		if err != nil {
			b.Fatal(err)
		}
		planks, byEye := 0, 0
		for i := range r.Floors {
			planks, byEye = planks+r.Floors[i].Plan.Planks, byEye+r.Floors[i].Plan.ByEye
		}
		b.ReportMetric(float64(len(r.Building.Rooms)), "rooms")
		b.ReportMetric(float64(planks)/float64(byEye), "planks/by-eye")
	}
}
