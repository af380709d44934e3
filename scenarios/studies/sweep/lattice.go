package sweep

import (
	"cmp"
	"context"
	"math"
	"runtime"
	"slices"

	"strandry/diffusion"
	"strandry/scenarios"
)

// sketchAxis is an axis that a sketch goes over.
type sketchAxis struct {
	axis  int
	span  scenarios.Span // of the values at which the scenario can be read
	order []int          // places by rising value, each value once
	ranks []int          // of the places in that order
	nodes []int          // ranks at which rows are marched, the first and the last among them
	log   bool
}

// newSketchAxis puts the values of an axis in order.
func newSketchAxis(s *scenarios.Scenario, axis int) sketchAxis {
	own := s.Vary[axis]
	a := sketchAxis{axis: axis, ranks: make([]int, own.Len())}
	all := make([]int, own.Len())
	for i := range all {
		all[i] = i
	}
	slices.SortStableFunc(all, func(i, j int) int { return cmp.Compare(own.Values[i], own.Values[j]) })
	for _, place := range all {
		if n := len(a.order); n == 0 || own.Values[place] > own.Values[a.order[n-1]] {
			a.order = append(a.order, place)
		}
		a.ranks[place] = len(a.order) - 1
	}
	return a
}

// cover finds the values of an axis at which the scenario can be read, with some settings of the others.
func (a *sketchAxis) cover(s *scenarios.Scenario, others ...scenarios.Setting) error {
	own := s.Vary[a.axis]
	first, last, err := readable(len(a.order), func(rank int) error {
		_, err := s.With(append(others[:len(others):len(others)], own.Setting(a.order[rank]))...)
		return err
	})
	if err != nil {
		return err
	}
	v := diffusion.Varied{From: own.Values[a.order[first]], To: own.Values[a.order[last]]}
	a.log = v.From > 0
	a.span = scenarios.Span{Key: own.Key, From: v.From, To: v.To, Middle: v.Middle()}
	return nil
}

// cover finds the values that the chart goes over: of each axis by itself, then with the others in their middle.
func (k *Sketch) cover(s *scenarios.Scenario) error {
	for i := range k.drawn {
		if err := k.drawn[i].cover(s); err != nil {
			return err
		}
	}
	for i := range k.drawn {
		var others []scenarios.Setting
		for j := range k.drawn {
			if j != i {
				others = append(others, k.drawn[j].span.InTheMiddle())
			}
		}
		if err := k.drawn[i].cover(s, others...); err != nil {
			return err
		}
	}
	return nil
}

// readable are the first and the last of so many values at which the scenario can be read: those at one end may be none.
func readable(count int, read func(rank int) error) (first, last int, err error) {
	first, last = 0, count-1
	low, high := read(first), read(last)
	switch {
	case low == nil && high == nil:
		return first, last, nil
	case low != nil && high != nil:
		return 0, 0, low
	}
	sound, bad := first, last
	if low != nil {
		sound, bad = last, first
	}
	for bad-sound > 1 || sound-bad > 1 {
		if middle := (sound + bad) / 2; read(middle) == nil {
			sound = middle
		} else {
			bad = middle
		}
	}
	if low != nil {
		first = sound
	} else {
		last = sound
	}
	if first == last {
		return 0, 0, cmp.Or(low, high)
	}
	return first, last, nil
}

// lattice is rows of a grid that are marched at the medians: those at its nodes, and those of each mesh at whose corners not all strands have an answer and survive alike.
type lattice struct {
	axes    []scenarios.Axis
	drawn   []sketchAxis
	nodes   []int // rows
	marched map[int]Row
}

// look marches the rows of the lattice, once.
func (k *Sketch) look(ctx context.Context) error {
	if k.lattice != nil {
		return nil
	}
	const one, two, three = 13, 7, 4 // nodes on an axis, of so many
	count := [...]int{1: one, 2: two, 3: three}[len(k.drawn)]
	l := &lattice{axes: k.scenario.Vary, drawn: slices.Clone(k.drawn), marched: make(map[int]Row)}
	for i := range l.drawn {
		a := &l.drawn[i]
		last := len(a.order) - 1
		for n := range count {
			a.nodes = append(a.nodes, n*last/(count-1))
		}
		a.nodes = slices.Compact(a.nodes)
	}
	l.each(func(at []int) { l.nodes = append(l.nodes, index(l.axes, at)) })
	if err := k.march(ctx, l, l.nodes); err != nil {
		return err
	}
	var more []int
	for row := range k.rows() {
		if _, known := l.marched[row]; !known && l.mixed(row) {
			more = append(more, row)
		}
	}
	if err := k.march(ctx, l, more); err != nil {
		return err
	}
	k.lattice = l
	return nil
}

// each calls with the places of every node.
func (l *lattice) each(node func(at []int)) {
	at := make([]int, len(l.axes))
	var along func(i int)
	along = func(i int) {
		if i == len(l.drawn) {
			node(at)
			return
		}
		for _, rank := range l.drawn[i].nodes {
			at[l.drawn[i].axis] = l.drawn[i].order[rank]
			along(i + 1)
		}
	}
	along(0)
}

// march marches rows as a quick sweep does.
func (k *Sketch) march(ctx context.Context, l *lattice, rows []int) error {
	if len(rows) == 0 {
		return nil
	}
	s := Sweep{Scenario: k.scenario, Quick: true, Workers: runtime.GOMAXPROCS(0), only: make(map[int]bool)}
	for _, row := range rows {
		s.only[row] = true
	}
	g := &Grid{Rows: make([]Row, k.rows())}
	if err := s.work(ctx, s.plan(), g); err != nil {
		return err
	}
	for _, row := range rows {
		l.marched[row] = g.Rows[row]
	}
	return nil
}

// corner is a node beside a row, and its share in what lies between.
type corner struct {
	row   Row
	share float64
}

// corners are the nodes about a row, those without a share left out.
func (l *lattice) corners(row int) []corner {
	place := places(l.axes, row)
	at := make([]int, len(l.axes))
	var all []corner
	var along func(i int, share float64)
	along = func(i int, share float64) {
		if i == len(l.drawn) {
			all = append(all, corner{l.marched[index(l.axes, at)], share})
			return
		}
		a := &l.drawn[i]
		low, high, w := a.between(l.axes[a.axis].Values, a.ranks[place[a.axis]])
		for _, end := range [...]struct {
			rank  int
			share float64
		}{{low, 1 - w}, {high, w}} {
			if end.share > 0 {
				at[a.axis] = a.order[end.rank]
				along(i+1, share*end.share)
			}
		}
	}
	along(0, 1)
	return all
}

// between are the nodes on either side of a rank, and the share of the way from the one to the other.
func (a *sketchAxis) between(values []float64, rank int) (low, high int, share float64) {
	i, found := slices.BinarySearch(a.nodes, rank)
	if found {
		return rank, rank, 0
	}
	low, high = a.nodes[i-1], a.nodes[i]
	u := func(rank int) float64 {
		if v := values[a.order[rank]]; !a.log {
			return v
		} else {
			return math.Log(v)
		}
	}
	return low, high, (u(rank) - u(low)) / (u(high) - u(low))
}

// mixed tells that the strands about a row do not all have an answer, or do not survive alike.
func (l *lattice) mixed(row int) bool {
	all := l.corners(row)
	return slices.ContainsFunc(all, func(c corner) bool {
		return c.row.Failed != "" || c.row.Survives() != all[0].row.Survives()
	})
}

// at is the excess of the heat of a row, between those about it, and why it has no answer. A row that was marched tells its own.
func (l *lattice) at(row int) (e diffusion.Excess, failed string) {
	if own, known := l.marched[row]; known {
		return own.Excess, own.Failed
	}
	for _, c := range l.corners(row) {
		e.Yield += c.share * c.row.Excess.Yield
		e.Bear += c.share * c.row.Excess.Bear
	}
	return e, ""
}
