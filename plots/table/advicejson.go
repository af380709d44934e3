package table

import (
	"strandry/diffusion"
	"strandry/diffusion/advice"
)

// set is a set of changes made together.
type set struct {
	Changes     []change `json:"changes"`
	Probability float64  `json:"probability"` // of a mean within the limit
	Mean        float64  `json:"mean"`
	Verdict     string   `json:"verdict"`
	Survives    string   `json:"survives"`
}

// change is a key of the scenario with another value, as its file has it.
type change struct {
	Change string `json:"change"`
	Zone   string `json:"zone,omitempty"` // none for the feed
	Key    string `json:"key"`
	From   string `json:"from"`
	To     string `json:"to"`
}

// nearest is the set that comes nearest, and what would have to give; zero for what does not.
type nearest struct {
	set
	Floor      float64 `json:"air_floor,omitempty"` // content that its driest air allows, above the limit
	FloorZone  string  `json:"air_floor_zone,omitempty"`
	Length     float64 `json:"length_needed,omitempty"` // of the drying zone, about
	LengthZone string  `json:"length_zone,omitempty"`
}

func setsOf(m *diffusion.Design, all []advice.Set) []set {
	out := make([]set, 0, len(all))
	for i := range all {
		out = append(out, setOf(m, &all[i]))
	}
	return out
}

func setOf(m *diffusion.Design, s *advice.Set) set {
	out := set{Probability: s.Probability, Mean: s.Mean, Verdict: s.Verdict.String(), Survives: s.Endurance.Survival.String()}
	for _, c := range s.Changes {
		for _, p := range c.Parts {
			one := change{Change: c.Kind.String(), Key: p.Key, From: p.Was, To: p.Is}
			if p.Zone >= 0 {
				one.Zone = m.Path[p.Zone].Name
			}
			out.Changes = append(out.Changes, one)
		}
	}
	return out
}

func nearestOf(m *diffusion.Design, v *advice.Advice) []nearest {
	if v.Nearest == nil {
		return []nearest{}
	}
	return []nearest{{setOf(m, v.Nearest), v.Floor, v.FloorZone, v.Length, v.LengthZone}}
}
