package rest

import (
	"math"

	"strandry/diffusion"
	"strandry/scenarios/studies/reliability"
)

// ReliableTime is the time from which on the strand is within its limit nine times in ten, or until which it still is.
type ReliableTime struct {
	// Already: from the beginning. Of a strand that wets it is the opposite: it is not so often within its limit as the rest begins.
	Already bool
	Never   bool    // not in thirty years; of a strand that wets: still so often after them
	Seconds float64 // [s]; zero for Already and Never
	// Probability of being within the limit then; for Never the most that was found, or what it is after thirty years.
	Probability float64
	// Odds are those of the strand at rest that it was found by, for other searches of the same material in the same air; nil where none were needed.
	Odds *diffusion.Odds
}

// first steps from an end of the times that are looked at, and from a time at the medians, as logarithms. Times go with the inverse of
// the diffusivity, and the rest of what is in doubt adds to it.
func (s *State) steps() (far, near float64) {
	const decades, share, rest = 3, 0.9, 0.25
	return decades, rest + share*math.Log(s.Model.Material.Diffusivity.Scatter.Value)
}

// rough is the time [s] beyond which that until a strand is dry is good to some tens of per cent only: nobody waits so long for one.
const rough = 2 * 86400

// DriesReliably finds from when on the content is within the limit nine times in ten; median is what [State.Dries] has found. Odds of the
// same material at rest save marches; nil where they are not known.
func (s *State) DriesReliably(w *diffusion.March, median Time, like *diffusion.Odds, n diffusion.Settings) (ReliableTime, error) {
	if median.Never {
		return ReliableTime{Never: true}, nil
	}
	far, near := s.steps()
	search := reliability.Search{From: shortest, To: longest, Step: far, Rough: rough}
	if !median.Already {
		search.From, search.Crossing, search.Step = median.Seconds, true, near
	}
	return s.reliably(w, search, like, n)
}

// StaysReliably finds until when the content is within the limit nine times in ten; median is what [State.Wets] has found.
func (s *State) StaysReliably(w *diffusion.March, median Time, n diffusion.Settings) (ReliableTime, error) {
	far, near := s.steps()
	search := reliability.Search{From: longest, To: shortest, Step: far}
	if !median.Never {
		search.From, search.Crossing, search.Step = max(median.Seconds, shortest), true, near
	}
	l, err := s.reliably(w, search, nil, n)
	l.Never, l.Already = l.Already, l.Never
	return l, err
}

// reliably searches between two times [s].
func (s *State) reliably(w *diffusion.March, search reliability.Search, like *diffusion.Odds, n diffusion.Settings) (ReliableTime, error) {
	m, err := s.model(longest)
	if err != nil {
		return ReliableTime{}, err
	}
	search.From, search.To = math.Log(search.From), math.Log(search.To)
	over, err := w.LengthOdds(m, 0, like, n)
	if err != nil {
		return ReliableTime{}, err
	}
	f, err := search.Lengths(over)
	l := ReliableTime{Odds: over.Base(), Already: f.Outcome == reliability.Already, Never: f.Outcome == reliability.Nowhere, Probability: f.Probability}
	if f.Outcome == reliability.Met {
		l.Seconds = math.Exp(f.Place)
	}
	return l, err
}
