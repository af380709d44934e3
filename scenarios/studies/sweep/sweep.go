package sweep

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"time"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// Sweep is a scenario to be run over its axes, which it must have.
type Sweep struct {
	Scenario *scenarios.Scenario
	Quick    bool        // leave out Low, High and Verdict, at a third of the work
	Sketch   bool        // in place of a march for each row a chart of all, see [Sketch]; it takes no known rows, hands none over, and uses all cores
	Knots    int         // of a quick sweep: so many values of its longest axis of numbers, half as many of another, get Low, High and Ratio all the same; 0 for none
	Workers  int         // goroutines, no more than there are tasks; as many as there are cores is a good choice
	Known    map[int]Row // rows from an earlier run, by index; nil for none

	// Done takes each row that is finished, in no order, on the caller's goroutine; nil for
	// nobody. An error ends the sweep.
	Done func(index int, row Row) error

	only  map[int]bool // rows that are marched; nil for all
	drawn bool         // rows are for figures, see [ForFigures]
}

// ForFigures sweeps a scenario over its axes as figures need it: quick, on all cores, with the odds at the seven values by which they draw the doubt. A scenario without [numerics] is
// marched at [diffusion.RoughSettings], and air that has to agree with the strand is sought from where it did at the length before.
func ForFigures(ctx context.Context, s *scenarios.Scenario) (*Grid, error) {
	const knots = 7
	return (&Sweep{Scenario: s, Quick: true, drawn: true, Knots: knots, Workers: runtime.GOMAXPROCS(0)}).Run(ctx)
}

// mostRows bounds the memory of a sweep: some 100 MB.
const mostRows = 1_000_000

// ErrNoAxis is what becomes of a scenario that names nothing to vary.
var ErrNoAxis = errors.New(`the scenario has no axis to sweep. Add one, such as

[[vary]]
key = "feed.speed"
from = "1 mm/s"
to = "4 mm/s"
count = 20`)

// Rows is the number of rows of the full grid. The error is [ErrNoAxis], or that the
// grid is too large.
func (s *Sweep) Rows() (int, error) {
	if len(s.Scenario.Vary) == 0 {
		return 0, ErrNoAxis
	}
	rows := 1
	var each []string
	for _, axis := range s.Scenario.Vary {
		rows *= axis.Len() // at most 10000 each, three axes: no overflow
		each = append(each, fmt.Sprint(axis.Len()))
	}
	if rows > mostRows {
		return 0, fmt.Errorf("a grid of %s is %d rows; up to %d can be swept: give the axes fewer values",
			strings.Join(each, " x "), rows, mostRows)
	}
	return rows, nil
}

// finished is a row on its way from a worker.
type finished struct {
	index int
	row   Row
}

// patience is how long rows under way are waited for after an interrupt.
const patience = 300 * time.Millisecond

// Run sweeps. The grid is the same to the bit for any number of workers and any
// known rows. When the context ends it hands over what is finished within a third of
// a second and returns the context's error.
func (s *Sweep) Run(ctx context.Context) (*Grid, error) {
	rows, err := s.Rows()
	if err != nil {
		return nil, err
	}
	if s.Sketch {
		return s.sketched(ctx)
	}
	g := &Grid{Axes: s.Scenario.Vary, Rows: make([]Row, rows), Quick: s.Quick}
	for i, row := range s.Known {
		if i >= 0 && i < rows {
			g.Rows[i] = row
		}
	}
	if err := s.work(ctx, s.plan(), g); err != nil {
		return nil, err
	}
	if s.Quick && s.Knots > 0 {
		if err := s.oddsAtKnots(ctx, g); err != nil {
			return nil, err
		}
	}
	if err := g.measure(ctx, s.Scenario); err != nil {
		return nil, err
	}
	return g, nil
}

// work shares the tasks among the workers and gathers the rows.
func (s *Sweep) work(ctx context.Context, p plan, g *Grid) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	out := make(chan finished, 64)
	workers := make([]*worker, max(1, min(s.Workers, p.tasks())))
	for i := range workers {
		workers[i] = &worker{sweep: s, plan: p, out: out, march: diffusion.NewMarch()}
	}
	var failed error // read when out is closed
	go func() {
		defer close(out)
		_, failed = parallel.Map(ctx, workers, p.tasks(), func(w *worker, task int) (struct{}, error) { return struct{}{}, w.do(ctx, task) })
	}()
	var late <-chan time.Time // never, until the context ends
	interrupted := ctx.Done()
	for {
		select {
		case f, more := <-out:
			if !more {
				return failed
			}
			g.Rows[f.index] = f.row
			if s.Done == nil {
				continue
			}
			if err := s.Done(f.index, f.row); err != nil {
				return err
			}
		case <-interrupted:
			interrupted, late = nil, time.After(patience)
		case <-late:
			return ctx.Err()
		}
	}
}

// settings are those of a scenario, or coarser ones where it states none.
func (s *Sweep) settings(of *scenarios.Scenario) diffusion.Settings {
	switch {
	case of.Numerics:
		return of.Settings
	case s.drawn:
		return diffusion.RoughSettings()
	}
	return diffusion.CoarseSettings()
}
