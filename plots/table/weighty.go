package table

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion"
)

// weighty are notes in short that could change the verdict, those first that would most.
func (a *Answer) weighty() []string {
	type note struct {
		weight int
		text   string
	}
	var all []note
	for _, w := range a.Assessment.Warnings {
		if weight, text := a.inShort(w); text != "" && !slices.ContainsFunc(all, func(n note) bool { return n.text == text }) {
			all = append(all, note{weight, text})
		}
	}
	if n := len(a.Contradicting); n > 0 {
		all = append(all, note{6, fmt.Sprintf("%d measured %s outside what these data predict: see strandry evidence %s.",
			n, plural(n, "figure lies", "figures lie"), a.Contradicting[0].Material)})
	}
	for _, key := range hot(a.Design) {
		all = append(all, note{3, fmt.Sprintf("Survives takes %s as given: that it is uncertain is not in it.", key)})
	}
	if n := len(a.Assumed); n > 0 {
		all = append(all, note{9, fmt.Sprintf("%d %s not given and taken as usual: --full.", n, plural(n, "value was", "values were"))})
	}
	slices.SortStableFunc(all, func(x, y note) int { return cmp.Compare(x.weight, y.weight) })
	out := make([]string, len(all))
	for i, n := range all {
		out[i] = n.text
	}
	return out
}

// hot are the temperatures that the scenario calls uncertain.
func hot(m *diffusion.Design) []string {
	var keys []string
	for _, g := range m.Given {
		if strings.HasSuffix(g.Name, ".temperature") {
			keys = append(keys, g.Name)
		}
	}
	return keys
}

// inShort puts a warning that could change the verdict in a few words, with its weight, the less the more; "" for others.
func (a *Answer) inShort(w diffusion.Warning) (weight int, text string) {
	name := a.Design.Material.Name
	switch w.Concern {
	case diffusion.NumericalDoubt:
		return 0, fmt.Sprintf("The numerical error (%s) is larger than the distance to the limit: refine [numerics].", Percent(w.Value))
	case diffusion.SaturatedAir, diffusion.CondensingAir:
		return 1, w.Zone + ": so little air that water would condense; the answer does not follow that. Give it more."
	case diffusion.Dew:
		return 2, fmt.Sprintf("%s: dew forms on the strand, which enters at %s; it is left out: the truth may be wetter.", w.Zone, Celsius(w.Value))
	case diffusion.SupersaturatedStart:
		return 2, fmt.Sprintf("It sets off with more water (%s) than %s holds in damp air (%s).", Percent(w.Value), name, Percent(w.Limit))
	case diffusion.BoreMouths:
		return 3, fmt.Sprintf("How much room air gets into the bore is not known: from %s (none) to %s (freely).", Percent(a.Assessment.Nozzle.Mean), Percent(w.Value))
	case diffusion.HotterThanUsual:
		return 4, fmt.Sprintf("%s: %s is above the usual drying temperature of %s, %s; it may stick or warp.", w.Zone, Celsius(w.Value), name, Celsius(w.Limit))
	case diffusion.DiffusivityRange, diffusion.IsothermTemperature:
		return 5, fmt.Sprintf("%s: at %s the data of %s are extrapolated; they end at %s.", w.Zone, Celsius(w.Value), name, Celsius(w.Limit))
	case diffusion.IsothermActivity:
		return 5, fmt.Sprintf("%s: air this damp lies beyond the data of %s.", w.Zone, name)
	case diffusion.UnmeasuredDiffusivity:
		return 7, fmt.Sprintf("The diffusivity of %s is %s: take the eight in ten, not the number.", name, kind(a.Design.Material.Diffusivity.ReferenceValue.Kind))
	}
	return 0, ""
}
