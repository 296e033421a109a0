package parallel

import (
	"context"
	"errors"
	"testing"
)

func TestEveryPieceIsDoneOnceAndInItsPlace(t *testing.T) {
	const n = 1000
	squares := make([]int, n)
	last := 0
	err := Each(context.Background(), n, func(i int) { squares[i] += i * i }, func(finished int) {
		if finished != last+1 {
			t.Errorf("finished %d after %d", finished, last)
		}
		last = finished
	})
	if err != nil || last != n {
		t.Fatalf("error %v after %d of %d", err, last, n)
	}
	for i, square := range squares {
		if square != i*i {
			t.Errorf("piece %d is %d", i, square)
		}
	}
}

func TestWorkStopsWithTheContext(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	count := 0
	err := Each(ctx, 1_000_000, func(int) {}, func(finished int) {
		if count = finished; finished == 3 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || count > 100 {
		t.Errorf("error %v after %d pieces", err, count)
	}
}

func TestAPanicIsRaisedWhereTheWorkWasAskedFor(t *testing.T) {
	defer func() {
		if p := recover(); p != "seven" {
			t.Errorf("recovered %v", p)
		}
	}()
	err := Each(context.Background(), 1000, func(i int) {
		if i == 7 {
			panic("seven")
		}
	}, func(int) {})
	t.Errorf("no panic, error %v", err)
}

func TestNoWork(t *testing.T) {
	if err := Each(context.Background(), 0, func(int) { t.Error("called") }, func(int) {}); err != nil {
		t.Error(err)
	}
}
