package page

import (
	"fmt"
	"strings"

	"strandry/plots/figure"
	"strandry/plots/palette"
	"strandry/plots/table"
	"strandry/scenarios/validation/measured"
)

// Proof is the name of the page of checks.
const Proof = "proof.html"

// OfProof makes the page of checks. The same results give the same bytes.
func OfProof(p *table.Proof) ([]byte, error) {
	plots, err := refinement(p)
	if err != nil {
		return nil, err
	}
	library, err := beside(p)
	if err != nil {
		return nil, err
	}
	d := &document{Kind: "Proof", Skip: "sums", Title: p.Summary(), Lead: "What the program computes, beside values from outside: published tables, handbooks, independent codes.",
		Foot: "strandry " + p.Version + ", strandry prove"}
	d.Sections = append(d.Sections, section{"sums", "The sums", sums(p)}, section{"convergence", "Convergence", []block{plots}},
		section{"evidence", "The library beside what was measured", []block{library}})
	d.Sections = append(d.Sections, families(p)...)
	return htmlOf(d)
}

// refinement shows how the error falls, or tells why that is not known.
func refinement(p *table.Proof) (block, error) {
	if p.Unmeasured != "" {
		return text("The orders of the solver could not be measured: " + p.Unmeasured + "."), nil
	}
	drawn := drawing{
		name: "convergence", head: "How the error falls", kind: "Two line charts of the error of the mean, over the nodes and over the steps.",
		caption: "Slowest mode: the slowest of the decays under a film, which has a closed form. Manufactured: a solution chosen at will, with a diffusivity " +
			"that grows with content and surroundings that vary, and the source that makes it exact. The order is the slope of each line.",
		figure: figure.Convergence{Frame: figure.Frame{Version: p.Version}, Orders: p.Orders},
	}
	return pictured(drawn)
}

// beside sets the library against the figures that were measured by others.
func beside(p *table.Proof) (block, error) {
	found, err := measured.Compare()
	if err != nil {
		return block{}, err
	}
	drawn := drawing{
		name: "evidence", head: "Measured against predicted", kind: "Log-log charts of measured against predicted contents, diffusivities, activation energies and ratios, with bars both ways.",
		caption: "Each figure that could be read, by what the library predicts for its conditions; strandry evidence names them and their sources. Upright bars: the range that is printed, or half a digit. " +
			"Level bars: the predicted interval. On the dashed line both agree. Grey figures prove nothing, since some value of the library was made from them.",
		figure: figure.Evidence{Frame: figure.Frame{Version: p.Version}, Comparisons: found.Comparisons},
	}
	return pictured(drawn)
}

// pictured is a drawing as a block.
func pictured(d drawing) (block, error) {
	pictures, err := encoded(d)
	if err != nil {
		return block{}, err
	}
	return block{Picture: pictures[0]}, nil
}

// sums are the verdict, the failures and the families.
func sums(p *table.Proof) []block {
	blocks := []block{{Banner: &banner{Word: "PASSED", Text: p.Summary() + ".", Kind: palette.Passed}}}
	if !p.Whole() {
		blocks[0].Banner = &banner{Word: "FAILED", Text: p.Summary() + ".", Kind: palette.Failed}
		failed := &grid{Heads: proofHeads(), Words: true}
		for i := range p.Results {
			if r := &p.Results[i]; !r.Passed() {
				cells := p.Cells(r)
				cells[0] = r.Family + ", " + cells[0]
				if r.Err != nil {
					cells[2] = r.Err.Error()
				}
				failed.add(cells...)
			}
		}
		blocks = append(blocks, head("What failed"), block{Grid: failed}, head("By family"))
	}
	g := &grid{Heads: []string{"Family", "Passed", "Worst, of its tolerance"}}
	for _, f := range p.Families() {
		g.add(f.Name, fmt.Sprintf("%d of %d", f.Passed, f.Checks), p.Share(f.Worst))
	}
	return append(blocks, block{Grid: g},
		text("A check is passed when the difference is no larger than the accuracy that its source claims. The worst of a family is the check that comes nearest to that. "+p.Transcribed()))
}

func proofHeads() []string {
	return []string{"Case", "Expected", "Got", "Differs by", "Allowed"}
}

// families is a section for each, its rows below their sources.
func families(p *table.Proof) []section {
	var out []section
	var g *grid
	source := ""
	for i := range p.Results {
		r := &p.Results[i]
		if i == 0 || r.Family != p.Results[i-1].Family {
			g, source = &grid{Heads: proofHeads()}, ""
			name := strings.ToUpper(r.Family[:1]) + r.Family[1:]
			out = append(out, section{fmt.Sprintf("family-%d", len(out)+1), name, []block{{Grid: g}}})
		}
		if s := p.Source(r); s != source {
			source = s
			g.Rows = append(g.Rows, line{Group: s})
		}
		cells := p.Cells(r)
		if !r.Passed() {
			cells[4] += " FAILED"
		}
		g.add(cells...)
	}
	return out
}
