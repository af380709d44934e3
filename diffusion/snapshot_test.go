package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// through is the polynomial through the points at a place.
func through(x, y []float64, at float64) float64 {
	sum := 0.0
	for i := range x {
		term := y[i]
		for j := range x {
			if j != i {
				term *= (at - x[j]) / (x[i] - x[j])
			}
		}
		sum += term
	}
	return sum
}

// round is the mean of values at angles over the sector: on each side of the edge the polynomial in
// sqrt(|cos φ - cos edge|), φ counted to π from the middle of an exposed arc, summed at the middles of many parts.
func round(s diffusion.Section, values []float64) float64 {
	edge, n := s.Exposed*math.Pi, float64(s.Arcs)
	root := func(phi float64) float64 { return math.Sqrt(math.Abs(math.Cos(phi) - math.Cos(edge))) }
	var x, y [2][]float64
	for a, angle := range s.Angle {
		const same = 1e-9
		if n*angle <= edge+same {
			x[0], y[0] = append(x[0], root(n*angle)), append(y[0], values[a])
		}
		if n*angle >= edge-same {
			x[1], y[1] = append(x[1], root(n*angle)), append(y[1], values[a])
		}
	}
	const parts = 4000
	sum := 0.0
	for k := range parts {
		phi := math.Pi * (float64(k) + 0.5) / parts
		side := 0
		if phi > edge {
			side = 1
		}
		sum += through(x[side], y[side], root(phi))
	}
	return sum / parts
}

// area is the mean over the section: rings by the trapezium in r², the innermost disc as its rim.
func area(s diffusion.Section) float64 {
	last := len(s.Radius) - 1
	before, sum, inner := 0.0, 0.0, round(s, s.Content[0])
	for i, r := range s.Radius {
		now := round(s, s.Content[i])
		sum += (r*r - before*before) * (inner + now) / 2
		before, inner = r, now
	}
	return sum / (s.Radius[last] * s.Radius[last])
}

// Three sections in each zone whose cover keeps its place, and none in others. Their own area means are those told, and the last is
// what the zone ends with. A zone against its air is marched several times and still shows three.
func TestSectionsOfATrace(t *testing.T) {
	for _, contact := range []diffusion.Contact{{Covered: 0.1, Arcs: 1}, {Covered: 0.5, Arcs: 2}, {Covered: 0.6, Arcs: 4}} {
		m := transit(t, 20)
		m.Path[1].Contact = contact
		m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 3e-5, diffusion.Against
		m.Path[2].Contact = diffusion.Contact{Covered: 0.2, Arcs: 1, Moves: true}
		m.Path = append(m.Path, m.Path[1])
		trace, err := diffusion.NewMarch().Trace(&m.Model, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.Len(t, trace.Sections, 6)
		for k, s := range trace.Sections {
			zone := 1 + 2*(k/3)
			require.Equal(t, zone, s.Zone)
			stay := m.Path[zone].Residence(m.Speed)
			within(t, [...]float64{1. / 20, 1. / 3, 1}[k%3]*stay, s.Time, stay/80)
			require.Equal(t, contact.Arcs, s.Arcs)
			require.Equal(t, contact.Exposed(), s.Exposed)
			require.Equal(t, trace.Radius, s.Radius)
			require.Len(t, s.Content, len(s.Radius))
			for a := 1; a < len(s.Angle); a++ {
				require.Greater(t, s.Angle[a], s.Angle[a-1])
			}
			require.GreaterOrEqual(t, s.Angle[0], 0.0)
			require.Less(t, s.Angle[len(s.Angle)-1], math.Pi/float64(contact.Arcs))
			within(t, s.Mean, area(s), 0.01*s.Mean, "section %d", k)
			if k%3 == 2 {
				skin, r := s.Content[len(s.Radius)-1], trace.Result.Zones[zone]
				require.Equal(t, r.Behind, skin[len(skin)-1])
				within(t, r.Exit.Mean, s.Mean, 1e-12)
				within(t, r.Residence, s.Time, 1e-6*r.Residence)
				require.Greater(t, r.Behind, skin[0])
			}
		}
	}
	open, err := diffusion.NewMarch().Trace(&transit(t, 20).Model, diffusion.DefaultSettings())
	require.NoError(t, err)
	require.Empty(t, open.Sections)
}
