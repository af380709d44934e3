package machine

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/pull"
)

// How far a hot strand stretches is told where its modulus is known, and that it is not where it is not: of the longest and of the hottest place.
func TestStretchesHot(t *testing.T) {
	point := func(name string, strain float64) pull.Point {
		return pull.Point{Name: name, Stress: pull.Range{High: 5e5}, Stretch: pull.Stretched{Known: strain > 0, Strain: pull.Range{Low: strain / 4, Value: strain / 2, High: strain}}}
	}
	warnings := func(longest, hottest int, points ...pull.Point) (all []Warning) {
		p := &Drawn{Told: true, Result: pull.Result{Points: points, Longest: longest, Hottest: hottest}}
		warnOfPull(p, func(c Concern, chamber string, value, limit float64) {
			all = append(all, Warning{c, chamber, value, limit})
		})
		p.Told = false
		warnOfPull(p, func(Concern, string, float64, float64) { t.Error("a pull that is not told") })
		return all
	}
	cold, hot := point("cold", 0.002), point("hot", 0.011)
	require.Equal(t, []Warning{{StretchesHot, "hot", 0.011, 0.01}}, warnings(1, 1, cold, hot))
	require.Empty(t, warnings(0, 0, cold, hot))
	require.Empty(t, warnings(-1, -1, cold, hot))
	require.Equal(t, []Warning{{StretchUnknown, "hot", 5e5, 0}}, warnings(0, 1, cold, point("hot", 0)))
}
