package advised

import (
	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/scenarios"
)

// Find tells what holds a scenario back whose assessment is given, and what would do.
func Find(w *diffusion.March, s *scenarios.Scenario, a *diffusion.Assessment) (advice.Diagnosis, advice.Advice) {
	d := advice.Diagnose(w, &s.Design, a)
	b := &s.Build
	bounds := advice.Bounds{Hottest: b.Hottest, Driest: b.Driest, Slowest: b.Slowest, Fastest: b.Fastest, Room: s.Room.Temperature}
	for i := range s.Model.Path {
		bounds.Longest = append(bounds.Longest, s.LongestOf(i))
	}
	return d, advice.Find(w, draft{s}, &s.Design, s.Settings, a, &d, bounds)
}

// Settings are the keys that changes set, for [scenarios.Scenario.With].
func Settings(all []advice.Change) []scenarios.Setting {
	var out []scenarios.Setting
	for _, c := range all {
		for _, p := range c.Parts {
			out = append(out, scenarios.Setting{Key: p.Key, Value: p.Is})
		}
	}
	return out
}

// design writes changes down as the file of a scenario has its numbers.
type draft struct{ *scenarios.Scenario }

// Changed is the model of the file with changes.
func (d draft) Changed(all []advice.Change) (*diffusion.Design, error) {
	s, err := d.With(Settings(all)...)
	if err != nil {
		return nil, err
	}
	return &s.Design, nil
}

// Written rounds each part and gives it key and words. Parts that change nothing are left out.
func (d draft) Written(c advice.Change) (advice.Change, bool) {
	out := advice.Change{Kind: c.Kind}
	for _, p := range c.Parts {
		if d.write(c.Kind, &p) {
			out.Parts = append(out.Parts, p)
		}
	}
	return out, len(out.Parts) > 0
}
