package diffusion

import (
	"sync"

	"strandry/diffusion/radial"
	"strandry/diffusion/section"
)

// grids are those made so far, which marches on several cores share. A grid is the same whoever makes it.
type grids struct {
	lock     sync.Mutex
	radial   map[gridKey]*radial.Grid
	rounds   map[roundKey]func() (*section.Round, error)
	sections map[sectionKey]func() (*section.Grid, error)
}

type gridKey struct {
	nodes   int
	stretch float64
	lumped  bool
}

type sectionKey struct {
	radial *radial.Grid
	roundKey
}

type roundKey struct {
	shape  section.Shape
	angles int
}

func newGrids() *grids {
	return &grids{radial: map[gridKey]*radial.Grid{}, rounds: map[roundKey]func() (*section.Round, error){}, sections: map[sectionKey]func() (*section.Grid, error){}}
}

// along is a grid along the radius.
func (g *grids) along(key gridKey) (*radial.Grid, error) {
	g.lock.Lock()
	defer g.lock.Unlock()
	if known, ok := g.radial[key]; ok {
		return known, nil
	}
	made, err := radial.NewGrid(1, key.nodes, key.stretch)
	if err != nil {
		return nil, err
	}
	if key.lumped {
		made = made.Lumped()
	}
	g.radial[key] = made
	return made, nil
}

// across is a grid of the section; one that takes a tenth of a millisecond to make is made while others go on, and those that differ in their radii alone share
// what they have round a circle.
func (g *grids) across(key sectionKey) (*section.Grid, error) {
	const kept = 64
	g.lock.Lock()
	made, ok := g.sections[key]
	if !ok {
		if len(g.sections) >= kept {
			clear(g.sections)
			clear(g.rounds)
		}
		round, known := g.rounds[key.roundKey]
		if !known {
			round = sync.OnceValues(func() (*section.Round, error) { return section.NewRound(key.shape, key.angles) })
			g.rounds[key.roundKey] = round
		}
		made = sync.OnceValues(func() (*section.Grid, error) {
			r, err := round()
			if err != nil {
				return nil, err
			}
			return r.Cross(key.radial)
		})
		g.sections[key] = made
	}
	g.lock.Unlock()
	return made()
}
