package sweep

import (
	"cmp"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/scenarios"
)

// plan divides the grid into tasks: some lengths of one zone that share a march,
// with everything else the same. Without an axis of lengths a task is one row.
type plan struct {
	axes  []scenarios.Axis
	axis  int   // of the lengths; -1 for none
	zone  int   // whose length it is
	order []int // places on the axis of lengths, by rising length
	share int   // lengths to a task
	parts int   // tasks for one combination of the other axes
	total int
}

// Lengths of one task. More would save marching, fewer lose less when a
// sweep is cut short.
const together = 32

func (s *Sweep) plan() plan {
	p := plan{axes: s.Scenario.Vary, axis: -1, share: 1, parts: 1, total: 1}
	for i, axis := range p.axes {
		p.total *= axis.Len()
		zone := zoneOfLength(axis, s.Scenario.Model.Path)
		if zone >= 0 && (p.axis < 0 || axis.Len() > p.axes[p.axis].Len()) {
			p.axis, p.zone = i, zone
		}
	}
	if p.axis < 0 {
		return p
	}
	axis := p.axes[p.axis]
	for i := range axis.Len() {
		p.order = append(p.order, i)
	}
	slices.SortStableFunc(p.order, func(a, b int) int { return cmp.Compare(axis.Values[a], axis.Values[b]) })
	p.total /= axis.Len()
	p.parts = (axis.Len() + together - 1) / together
	p.share = (axis.Len() + p.parts - 1) / p.parts
	return p
}

// zoneOfLength is the index of the zone whose length the axis is, or -1.
func zoneOfLength(axis scenarios.Axis, path []diffusion.Zone) int {
	name, ok := strings.CutPrefix(axis.Key.Name, "zone.")
	if !ok {
		return -1
	}
	name, ok = strings.CutSuffix(name, ".length")
	if !ok {
		return -1
	}
	return slices.IndexFunc(path, func(z diffusion.Zone) bool { return z.Name == name })
}

func (p *plan) tasks() int { return p.total * p.parts }

// task gives the combination of the other axes, with the axis of lengths at its
// first place, and the places on that axis, by rising length; none without one.
func (p *plan) task(t int) (at, lengths []int) {
	group, part := t/p.parts, t%p.parts
	at = make([]int, len(p.axes))
	for i := len(p.axes) - 1; i >= 0; i-- {
		if i == p.axis {
			continue
		}
		n := p.axes[i].Len()
		at[i] = group % n
		group /= n
	}
	if p.axis < 0 {
		return at, nil
	}
	first := part * p.share
	return at, p.order[first:min(first+p.share, len(p.order))]
}
