package main

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/advised"
)

// TestAttackAdvice takes the advice on random designs at its word. Each set that would do, laid over the file, is dry and does not soften; the
// nearest is as likely as told; where none would do, no single change as far as what can be built allows is dry.
func TestAttackAdvice(t *testing.T) {
	t.Parallel()
	count := samples.Of(6, 10, 500)
	told := map[string]int{}
	for i := range count {
		text := buildable(attackDice(t, 9, i), i)
		t.Run(strconv.Itoa(i), func(t *testing.T) {
			s, err := scenarios.Read("design.toml", []byte(text))
			if err != nil {
				return
			}
			a, err := assess(context.Background(), s)
			if err != nil {
				return // too little air, or no odds
			}
			told[takenAtItsWord(t, s, a)]++
			if t.Failed() {
				t.Log(text)
			}
		})
	}
	t.Log(told)
	require.Positive(t, told["enough"])
	require.Positive(t, told["nearest"])
}

// buildable is a random design with what can be built: one of those of the attacks, or, twice as often, one that is near to being dry. Covers that
// keep their place are left to the demonstrations: the odds of a random one may take minutes.
func buildable(dice *rand.Rand, i int) string {
	text := airy(dice)
	if draft := drafted(dice).text(); i%3 == 2 && !strings.Contains(draft, "moves = false") && !strings.Contains(draft, "exposed") {
		text = draft
	}
	if dice.IntN(2) == 0 {
		text += fmt.Sprintf("[build]\nlongest = \"%.3g m\"\ndriest = \"%.3g °C\"\n", math.Pow(10, 2.5*dice.Float64()), -60+60*dice.Float64())
		if dice.IntN(2) == 0 {
			text += fmt.Sprintf("hottest = \"%.3g °C\"\n", 40+100*dice.Float64())
		}
	}
	return text
}

// takenAtItsWord holds advice against runs of what it says, and tells which kind it was.
func takenAtItsWord(t *testing.T, s *scenarios.Scenario, a *table.Answer) string {
	v := &a.Advice
	run := func(set ...scenarios.Setting) (*diffusion.Assessment, error) {
		changed, err := s.With(set...)
		if err != nil {
			return nil, err
		}
		return diffusion.NewMarch().Assess(&changed.Design, changed.Settings)
	}
	for i := range v.Sets {
		set := &v.Sets[i]
		require.LessOrEqual(t, len(set.Changes), 3)
		after, err := run(advised.Settings(set.Changes)...)
		require.NoError(t, err)
		require.Equal(t, diffusion.Dry, after.Verdict, a.Changes(set))
		require.NotEqual(t, diffusion.Softens, after.Endurance.Survival)
		require.InDelta(t, set.Probability, after.Probability, 0.005)
		if len(set.Changes) == 1 && set.Changes[0].Kind == advice.Longer {
			require.NotContains(t, a.Conclusion(), "longer drying alone will not do", a.Changes(set))
		}
	}
	if n := v.Nearest; n != nil {
		after, err := run(advised.Settings(n.Changes)...)
		require.NoError(t, err)
		require.InDelta(t, n.Probability, after.Probability, 0.02)
	}
	switch {
	case a.Assessment.Verdict == diffusion.Dry:
		require.Equal(t, advice.Advice{}, *v)
		return "dry"
	case len(v.Sets) > 0:
		return "enough"
	}
	for _, one := range extremes(s, a.Diagnosis.Dryer) {
		if after, err := run(one); err == nil {
			require.NotEqual(t, diffusion.Dry, after.Verdict, "%v", one)
		}
	}
	if v.Nearest == nil {
		return "nothing"
	}
	return "nearest"
}

// extremes are single changes of the dryer and the feed, as far as what can be built allows.
func extremes(s *scenarios.Scenario, dryer int) []scenarios.Setting {
	b, z := &s.Build, &s.Model.Path[dryer]
	zone := "zone." + z.Name
	const digits = 15
	celsius := func(kelvin float64) string { return quantity.Temperature().Format(kelvin, "°C", digits) }
	all := []scenarios.Setting{}
	if b.Longest > z.Length {
		all = append(all, scenarios.Setting{Key: zone + ".length", Value: quantity.Length().Format(b.Longest, "m", digits)})
	}
	if hottest := min(b.Hottest, s.Model.Material.GivesWay().Min); hottest > z.Air.Temperature {
		all = append(all, scenarios.Setting{Key: zone + ".temperature", Value: celsius(hottest)})
	}
	known := func(key string) bool {
		return slices.ContainsFunc(s.Keys(), func(k scenarios.Key) bool { return k.Name == key && k.Known })
	}
	if humidair.SaturationPressure(b.Driest) < z.Air.VapourPressure && !known(zone+".air.humidity") && !known(zone+".air.vapour_pressure") {
		all = append(all, scenarios.Setting{Key: zone + ".air.dew_point", Value: celsius(b.Driest)})
	}
	feed := s.FeedKey()
	for _, to := range [...]float64{b.Slowest, b.Fastest} {
		all = append(all, feed.Setting(feed.Value*to/s.Model.Speed, digits))
	}
	return all
}
