package table

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"strandry/scenarios/validation/prove"
)

// Proof is the table of checks as it came out.
type Proof struct {
	Version string
	Results []prove.Result
	Orders  []prove.Order
	// Unmeasured tells why there are no orders; "" where there are.
	Unmeasured string
}

// ProofFamily is what one family of checks came to.
type ProofFamily struct {
	Name           string
	Checks, Passed int
	Worst          *prove.Result // that comes nearest to its tolerance, or lies furthest outside
}

// Passed is the number of checks passed.
func (p *Proof) Passed() int {
	n := 0
	for i := range p.Results {
		if p.Results[i].Passed() {
			n++
		}
	}
	return n
}

// Whole tells whether every check was passed, and that there are some, and orders.
func (p *Proof) Whole() bool {
	return len(p.Results) > 0 && p.Passed() == len(p.Results) && p.Unmeasured == ""
}

// Families sums up, in the order of the table.
func (p *Proof) Families() []ProofFamily {
	var out []ProofFamily
	for i := range p.Results {
		r := &p.Results[i]
		if len(out) == 0 || out[len(out)-1].Name != r.Family {
			out = append(out, ProofFamily{Name: r.Family, Worst: r})
		}
		f := &out[len(out)-1]
		f.Checks++
		if r.Passed() {
			f.Passed++
		}
		if r.Share() > f.Worst.Share() {
			f.Worst = r
		}
	}
	return out
}

// Share says how much of its tolerance a check has used up.
func (p *Proof) Share(r *prove.Result) string {
	share := 100 * r.Share()
	switch {
	case math.IsInf(share, 0):
		return "no number"
	case share < 0.1:
		return "< 0.1 %"
	case share > 1e6:
		return "> 1e6 %"
	}
	return Significant(share, 2) + " %"
}

// Summary is the one line that says it all.
func (p *Proof) Summary() string {
	return fmt.Sprintf("%d of %d checks passed", p.Passed(), len(p.Results))
}

// Transcribed tells how many of the checks show no more than that a formula is written down right.
func (p *Proof) Transcribed() string {
	n := 0
	for i := range p.Results {
		if p.Results[i].Kind == prove.Transcribed {
			n++
		}
	}
	return fmt.Sprintf("%d of the checks are transcriptions: the same formula computed once more, which shows that it is written down right, and no more.", n)
}

// Cells are the case, the value expected, that computed, their difference and the one
// allowed.
func (p *Proof) Cells(r *prove.Result) []string {
	what := r.Name + ": " + r.Quantity
	if r.Unit != "-" {
		what += " [" + r.Unit + "]"
	}
	digits := enough(r)
	got, off := "none", "none"
	if !math.IsNaN(r.Got) && !math.IsInf(r.Got, 0) {
		got, off = Significant(r.Got, digits), fmt.Sprintf("%.1e", r.Difference)
	}
	return []string{what, Significant(r.Expected, digits), got, off, fmt.Sprintf("%.1e", r.Within)}
}

// enough is the number of digits at which a difference as large as the one allowed
// still shows.
func enough(r *prove.Result) int {
	const least, most = 4, 10
	ratio := math.Abs(r.Expected) / r.Within
	if !(ratio > 1) || math.IsInf(ratio, 0) {
		return least
	}
	return min(max(least, int(math.Ceil(math.Log10(ratio)))+2), most)
}

// Source names the source of a check, what sort of knowledge it is, and why the tolerance
// is what it is.
func (p *Proof) Source(r *prove.Result) string {
	return fmt.Sprintf("%s [%s; tolerance: %s]", r.Source, r.Kind, r.Tolerance.Reason)
}

// Check passes all: what is not a number is shown as none.
func (p *Proof) Check() error { return nil }

// text has the failures, the table family by family, and the sums.
func (p *Proof) text(b *strings.Builder) {
	p.failures(b)
	source, family := "", ""
	columns := []column{{width: -29}, {width: 15}, {width: 15}, {width: 9}, {width: 7}}
	for i := range p.Results {
		r := &p.Results[i]
		if r.Family != family {
			family, source = r.Family, ""
			fmt.Fprintf(b, "%s\n", strings.ToUpper(family))
			row(b, columns, []string{"", "expected", "got", "differs", "allowed"})
		}
		if s := p.Source(r); s != source {
			source = s
			paragraph(b, "  ", s)
		}
		p.line(b, columns, r)
		if i+1 == len(p.Results) || p.Results[i+1].Family != family {
			b.WriteByte('\n')
		}
	}
	p.sums(b)
}

// line is one check; a name that is too long for its column stands above the figures.
func (p *Proof) line(b *strings.Builder, columns []column, r *prove.Result) {
	cells := p.Cells(r)
	cells[0] = "    " + cells[0]
	if !r.Passed() {
		cells[0] += " FAILED"
	}
	if utf8.RuneCountInString(cells[0]) > -columns[0].width {
		row(b, columns, []string{cells[0], "", "", "", ""})
		cells[0] = ""
	}
	row(b, columns, cells)
}

// failures come first, in full.
func (p *Proof) failures(b *strings.Builder) {
	failed := len(p.Results) - p.Passed()
	if failed == 0 {
		return
	}
	fmt.Fprintf(b, "FAILED: %d of %d checks\n\n", failed, len(p.Results))
	for i := range p.Results {
		r := &p.Results[i]
		if r.Passed() {
			continue
		}
		cells := p.Cells(r)
		paragraph(b, "!!! ", r.Family+", "+cells[0])
		paragraph(b, "    ", fmt.Sprintf("expected %s, got %s; differs by %s, allowed %s", cells[1], cells[2], cells[3], cells[4]))
		if r.Err != nil {
			paragraph(b, "    ", "not computed: "+r.Err.Error())
		}
		paragraph(b, "    ", p.Source(r))
		b.WriteByte('\n')
	}
}

func (p *Proof) sums(b *strings.Builder) {
	columns := []column{{width: -42}, {width: 10}, {width: 24}}
	row(b, columns, []string{"FAMILY", "passed", "worst, of its tolerance"})
	for _, f := range p.Families() {
		row(b, columns, []string{f.Name, fmt.Sprintf("%d of %d", f.Passed, f.Checks), p.Share(f.Worst)})
	}
	b.WriteByte('\n')
	for _, o := range p.Orders {
		paragraph(b, "", fmt.Sprintf("Order in %s, %s: %.2f", refined(o), o.Name, o.Measured))
	}
	if p.Unmeasured != "" {
		paragraph(b, "!!! ", "The orders of the solver could not be measured: "+p.Unmeasured)
	}
	paragraph(b, "", p.Transcribed())
	fmt.Fprintf(b, "%s\n", p.Summary())
}

func refined(o prove.Order) string {
	if o.InSpace {
		return "space"
	}
	return "time"
}
