package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// Sketch answers all rows of a sweep over numbers by a chart ([diffusion.Chart]) that rests on some forty marches, more when it is refined, in place of one for each
// row. What was computed is kept from one look to the next. Not for use by two goroutines at once.
type Sketch struct {
	scenario *scenarios.Scenario
	drawn    []sketchAxis // the axes that the chart goes over
	limit    float64      // [kg/kg dry]
	chart    *diffusion.Chart
	lattice  *lattice // nil until a grid was asked for
	batches  int      // of further marches
}

// Sketched is how far sketched rows may be off.
type Sketched struct {
	Error      float64 // root mean square, relative to the content, as leaving out each march in turn tells [-]
	Sought     float64 // at which refining ends [-]; zero where it was not refined until then
	Marches    int     // that the rows rest on
	Unanswered int     // of them, those without an answer, which were taken for as wet as the wettest
	Batches    int     // in which marches were added to the first look
	Exhausted  bool    // there were no more

	Checked int     // rows that were marched as a sweep does
	Off     float64 // root mean square of what the others differ by from those, relative to the content [-]
	Worst   float64 // the largest [-]
	Looked  int     // rows beside the checked ones that were marched because a strand softens, or has no answer, nearby
}

// Slack is what the verdicts of the rows count as their error, relative to the content [-].
func (s *Sketched) Slack() float64 { return max(s.Error, s.Off) }

// ErrNotSketched is what becomes of a row that a chart does not cover.
var ErrNotSketched = errors.New("lies beyond what the sketch covers, though it has an answer: sweep without --sketch")

// NewSketch takes a first look. The error tells of an axis that a chart does not go over, and why.
func NewSketch(s *scenarios.Scenario) (*Sketch, error) {
	if _, err := (&Sweep{Scenario: s}).Rows(); err != nil {
		return nil, err
	}
	k := &Sketch{scenario: s}
	var spans []scenarios.Span
	var fixed []scenarios.Setting
	for i, axis := range s.Vary {
		if axis.Names != nil {
			return nil, fmt.Errorf("%s: a sketch goes over numbers, not over names: sweep without --sketch, or sketch each of them for itself", axis.Key.Name)
		}
		if a := newSketchAxis(s, i); len(a.order) > 1 {
			k.drawn = append(k.drawn, a)
		} else {
			fixed = append(fixed, axis.Setting(a.order[0]))
		}
	}
	if len(k.drawn) == 0 {
		return nil, errors.New("no axis has two numbers to sketch between: sweep without --sketch")
	}
	if len(fixed) > 0 {
		var err error
		if s, err = s.With(fixed...); err != nil {
			return nil, err
		}
	}
	if err := k.cover(s); err != nil {
		return nil, notSketched(err)
	}
	for _, a := range k.drawn {
		spans = append(spans, a.span)
	}
	courses, err := s.Courses(spans)
	if err != nil {
		return nil, notSketched(err)
	}
	k.limit = courses.Base.Limit
	k.chart, err = diffusion.NewMarch().Chart(&courses.Base.Design, courses.Varied(), s.Settings)
	return k, err
}

func notSketched(err error) error {
	return fmt.Errorf("this cannot be sketched: %w. Without --sketch each row is marched", err)
}

// Refine makes more marches, and tells whether there were any left to make.
func (k *Sketch) Refine() (more bool, err error) {
	if more, err = k.chart.Refine(); more {
		k.batches++
	}
	return more, err
}

// Error is that of the chart, relative to the content [-].
func (k *Sketch) Error() float64 { return k.chart.Error }

// Contents are those of all rows at the medians of what is in doubt, in their order, without a look at whether a row has an answer: no number beyond what the sketch
// covers [kg/kg dry].
func (k *Sketch) Contents() []float64 {
	out := make([]float64, k.rows())
	values := make([]float64, len(k.drawn))
	for row := range out {
		if out[row] = math.NaN(); k.values(row, values) {
			out[row] = k.chart.Content(values...)
		}
	}
	return out
}

func (k *Sketch) rows() int {
	rows := 1
	for _, axis := range k.scenario.Vary {
		rows *= axis.Len()
	}
	return rows
}

// values are those of a row on the axes that are drawn; false for one beyond what the chart covers.
func (k *Sketch) values(row int, values []float64) bool {
	at := places(k.scenario.Vary, row)
	for i := range k.drawn {
		a := &k.drawn[i]
		values[i] = k.scenario.Vary[a.axis].Values[at[a.axis]]
		if values[i] < a.span.From || values[i] > a.span.To {
			return false
		}
	}
	return true
}

// Grid is the sketch as it stands, with its probabilities. Some of its rows are marched, so that it tells where there is no answer or the strand softens, and how far it is off.
func (k *Sketch) Grid(ctx context.Context) (*Grid, error) {
	return parallel.UnlessDone(ctx, k.grid)
}

func (k *Sketch) grid(ctx context.Context) (*Grid, error) {
	if err := k.look(ctx); err != nil {
		return nil, err
	}
	g := &Grid{Axes: k.scenario.Vary, Rows: make([]Row, k.rows())}
	var asked []int
	var values [][]float64
	for row := range g.Rows {
		own := make([]float64, len(k.drawn))
		covered := k.values(row, own)
		excess, failed := k.lattice.at(row)
		if failed == "" && !covered {
			failed = ErrNotSketched.Error()
		}
		g.Rows[row] = Row{Excess: excess, Failed: failed, Limit: k.limit, Settings: k.chart.Settings}
		if failed != "" {
			g.Rows[row].Excess = diffusion.Excess{}
			continue
		}
		asked, values = append(asked, row), append(values, own)
	}
	told, err := k.chart.Tell(ctx, values)
	if err != nil {
		return nil, err
	}
	for i, row := range asked {
		g.Rows[row].tell(&told[i])
	}
	g.Sketched = k.sketched(g)
	for _, row := range asked {
		r := &g.Rows[row]
		o := diffusion.Odds{Probability: r.Probability, Density: r.Density}
		r.Verdict = o.Verdict(g.Sketched.Slack(), r.Survives())
	}
	return g, nil
}

// tell notes what a chart tells of the row.
func (row *Row) tell(t *diffusion.Told) {
	row.Mean, row.Low, row.High, row.Probability, row.Density, row.Ratio = t.Content, t.Low, t.High, t.Probability, t.Density, t.Ratio
}

// sketched tells how far the rows of a grid are off.
func (k *Sketch) sketched(g *Grid) *Sketched {
	out := &Sketched{Error: k.chart.Error, Marches: k.chart.Marches, Unanswered: k.chart.Unanswered, Batches: k.batches, Looked: len(k.lattice.marched) - len(k.lattice.nodes)}
	for _, row := range k.lattice.nodes {
		marched, own := k.lattice.marched[row], &g.Rows[row]
		if own.Failed != "" {
			continue
		}
		least := 1e-6 * own.Limit
		d := math.Abs(math.Log(math.Max(own.Mean, least) / math.Max(marched.Mean, least)))
		out.Checked++
		out.Off += d * d
		out.Worst = math.Max(out.Worst, d)
	}
	out.Off = math.Sqrt(out.Off / math.Max(1, float64(out.Checked)))
	return out
}

// enough is the error of a chart, relative to the content, from which on it is not refined.
const enough = 0.03

// sketched is a sketch of the sweep's scenario, refined until the chart is off by no more than three per cent of the content, as it tells itself, or there are no more marches to make.
func (s *Sweep) sketched(ctx context.Context) (*Grid, error) {
	k, err := parallel.UnlessDone(ctx, func(ctx context.Context) (*Sketch, error) {
		k, err := NewSketch(s.Scenario)
		for more := true; err == nil && more && k.Error() > enough && ctx.Err() == nil; {
			more, err = k.Refine()
		}
		return k, err
	})
	if err != nil {
		return nil, err
	}
	g, err := k.Grid(ctx)
	if err != nil {
		return nil, err
	}
	g.Sketched.Sought, g.Sketched.Exhausted = enough, k.Error() > enough
	return g, nil
}
