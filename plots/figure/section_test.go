package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

func TestSectionHeadlines(t *testing.T) {
	f := aSection()
	// 0.025 exp(-6/8) = 1.181 %, of which 0.002 + 0.998·0.8·w remains: w = sin⁴(π/28) at the first angle, cos⁴(π/28) at the last.
	require.Equal(t, "Behind the covers the skin of PA6 still holds 0.92 % as it leaves drum; where the air reaches it, 0.0025 %", plain(f.Headline()))
	skin := func(change func(row []float64)) Section {
		f := aSection()
		change(f.Trace.Sections[2].Content[19])
		f.Trace.Sections[2].Arcs = 1
		return f
	}
	wetted := skin(func(row []float64) { row[0], row[6] = 0.03, 0.001 })
	require.Equal(t, "Behind the cover the skin of PA6 holds only 0.1 % as it leaves drum; where the air reaches it, 3 %", plain(wetted.Headline()))
	even := skin(func(row []float64) { row[0], row[6] = 0.00300001, 0.003 })
	require.Equal(t, "Behind the cover the skin of PA6 holds as much as where the air reaches it, 0.3 %, as it leaves drum", plain(even.Headline()))
}

// Of several zones the one that is left least even is drawn; a strand that nothing covers has no such figure.
func TestSectionOfTheLeastEvenZone(t *testing.T) {
	m, trace := crossing()
	m.Path[1].Contact = diffusion.Contact{Covered: 0.2, Arcs: 2}
	even := trace.Sections[2]
	even.Zone, even.Content = 1, append([][]float64(nil), even.Content...)
	even.Content[19] = []float64{0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01}
	trace.Sections = append(trace.Sections, even)
	f, ok := SectionOf(m, trace, frame())
	require.True(t, ok)
	require.Zero(t, f.Zone)
	require.Equal(t, "drum: 30 % of the strand's perimeter is covered, by 2 arcs that keep their places. Of 2 such zones it is left least even.", plain(f.caption()))
	trace.Sections = nil
	_, ok = SectionOf(m, trace, frame())
	require.False(t, ok)
}
