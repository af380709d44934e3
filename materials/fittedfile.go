package materials

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"strandry/materials/text/inert"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Fit is what weighings of a strand tell of its diffusivity, in SI. Of a Value its three numbers count, 0 < Low < Value < High, but for beta, which may have either sign; kind and source are those of the fit.
type Fit struct {
	Base        string      // what the strand comes nearest to, which tells all that the weighings do not: a name of the library or a material file
	Name        string      // of the strand, as people write it; "" leaves that of the base
	Reference   float64     // [K], within Temperature: where Diffusivity holds
	Diffusivity Value       // [m2/s], of the dry polymer
	Activation  *Value      // [J/mol]; nil where the weighings do not tell it, and that of the base stays
	Beta        *Value      // [kg dry/kg]; nil as before
	Correlation Correlation // of the three
	Temperature Range       // [K], of the weighings
	Source      string      // how it was found, in a few words
	Data        []DataFile  // that it rests on, one or more
	Doubt       string      // what besides is in no range of it, a sentence; "" for nothing
}

// DataFile is a file of weighings.
type DataFile struct{ Name, SHA256 string }

// FittedFile is the text of a material file that states what was fitted and nothing else. [Read] makes of it the same numbers, to 1e-12 of each. base gives the polymer of
// the name in the file as it does there; nil means [Lookup]. What cannot be read back is an error.
//
// The law is stated at the temperature of the weighings, where its doubt is least and the activation energy acts on nothing. Where that energy was not fitted, the
// pieces of the base go through the new value: all of the base's law times one factor. Where it was, it replaces that of the piece in
// which the weighings lie, and the others stay and are joined to it; weighings on both sides of a break tell one energy for all temperatures. The law holds
// over the temperatures of the weighings, or over a kelvin on either side of a single one.
func FittedFile(f Fit, base func(string) (Polymer, error)) (string, error) {
	if base == nil {
		base = Lookup
	}
	p, err := base(f.Base)
	if err != nil {
		return "", err
	}
	if err := f.check(); err != nil {
		return "", err
	}
	var b strings.Builder
	f.head(&b)
	fmt.Fprintf(&b, "base = %s\n", strict.Quoted(f.Base))
	if f.Name != "" {
		fmt.Fprintf(&b, "name = %s\n", text(f.Name))
	}
	f.law(&b, &p.Diffusivity)
	fmt.Fprintf(&b, "\n[[doubt]]\nabout = \"diffusivity\"\ntext = %s\nkind = \"fitted\"\nsource = %s\n", text(strings.TrimSpace(oneScale+" "+f.Doubt)), text(f.source()))
	if _, err := Read("fitted.toml", []byte(b.String()), base); err != nil {
		return "", fmt.Errorf("what was fitted is no material: %w", err)
	}
	return b.String(), nil
}

// oneScale is what is doubtful about every fit.
const oneScale = "The diffusivity was fitted to weighings of one strand on one scale: an error that all of them share, of the scale, the humidity or the diameter, is in no range of it."

// leastWide is the least width of a range of temperature [K].
const leastWide = 2

// range of temperature that the file states.
func (f *Fit) holds() Range {
	t := f.Temperature
	if t.Max-t.Min < leastWide {
		middle := (t.Min + t.Max) / 2
		return Range{Min: middle - leastWide/2, Max: middle + leastWide/2}
	}
	return t
}

func (f *Fit) check() error {
	sound := func(v *Value) bool { return v == nil || 0 < v.Low && v.Low < v.Value && v.Value < v.High }
	switch b := f.Beta; {
	case !sound(&f.Diffusivity) || !sound(f.Activation):
		return errors.New("what was fitted has no range: allowed is 0 < low < value < high")
	case b != nil && !(b.Low < b.Value && b.Value < b.High):
		return errors.New("beta has no range: allowed is low < value < high")
	case !(f.Temperature.Min <= f.Temperature.Max) || !f.holds().Holds(f.Reference):
		return fmt.Errorf("the reference [K] = %g does not lie where the weighings do: allowed is %g to %g", f.Reference, f.holds().Min, f.holds().Max)
	case len(f.Data) == 0 || strings.TrimSpace(f.Source) == "":
		return errors.New("a fit without data or source: allowed is one that says what it rests on")
	}
	return nil
}

// head is the comment that says what the file is.
func (f *Fit) head(b *strings.Builder) {
	fmt.Fprintf(b, "# A strand that was weighed: what follows was fitted to the weighings, all else is that of %s.\n", inert.Escaped(f.Base))
	fmt.Fprintf(b, "# Found by: %s. It rests on\n", inert.Escaped(strings.TrimSuffix(f.Source, ".")))
	for _, d := range f.Data {
		fmt.Fprintf(b, "#     %s, SHA-256 %s\n", inert.Escaped(d.Name), inert.Escaped(d.SHA256))
	}
	b.WriteString("# on one scale, and on what the base says of the isotherm. value is the median, low and high are the 5 and 95 % points.\n")
	if f.Correlation != (Correlation{}) {
		b.WriteString("# correlation tells how the doubts of the numbers go together, as they were fitted: take it out where you change one of them.\n")
	}
}

// source is that of each value.
func (f *Fit) source() string {
	var files []string
	for _, d := range f.Data {
		files = append(files, d.Name+" (SHA-256 "+d.SHA256+")")
	}
	return strings.TrimSuffix(f.Source, ".") + "; data: " + strings.Join(files, ", ")
}

// law writes the diffusivity.
func (f *Fit) law(b *strings.Builder, base *Diffusivity) {
	value := func(v *Value, write func(x float64) string) string {
		return fmt.Sprintf("{ value = %s, low = %s, high = %s, kind = %q, source = %s }", write(v.Value), write(v.Low), write(v.High), Fitted.String(), text(f.source()))
	}
	in := func(dim quantity.Dimension, unit string) func(x float64) string {
		return func(x float64) string { return strict.Quoted(exactly(dim, x, unit)) }
	}
	celsius, energy := in(quantity.Temperature(), "°C"), in(quantity.MolarEnergy(), "kJ/mol")
	holds := f.holds()
	fmt.Fprintf(b, "\n[diffusivity]\nreference = %s\nvalue = %s\n", celsius(f.Reference), value(&f.Diffusivity, in(quantity.Diffusivity(), "m2/s")))
	onePiece := base.piece(holds.Min) == base.piece(holds.Max)
	if f.Activation != nil && onePiece {
		fmt.Fprintf(b, "activation = %s\n", value(f.Activation, energy))
	}
	if f.Beta != nil {
		fmt.Fprintf(b, "beta = %s\n", value(f.Beta, plain))
	}
	if c := f.Correlation; c != (Correlation{}) || base.Correlation != c {
		fmt.Fprintf(b, "correlation = { activation = %s, beta = %s, activation_beta = %s }\n", plain(c.Activation), plain(c.Beta), plain(c.ActivationBeta))
	}
	fmt.Fprintf(b, "temperature = { from = %s, to = %s }\n", celsius(holds.Min), celsius(holds.Max))
	if f.Activation != nil && !onePiece {
		fmt.Fprintf(b, "\n[[diffusivity.piece]]\nactivation = %s\n", value(f.Activation, energy))
	}
}

// text is a text as TOML has it, what cannot be printed being escaped for good: it is read as the escape.
func text(s string) string { return strict.Quoted(inert.Escaped(s)) }

// plain writes a number without a unit so that it reads back to the bit.
func plain(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// exactly writes a quantity in as few digits as read back to the last bits, and in seventeen where none do.
func exactly(dim quantity.Dimension, si float64, unit string) string {
	const least, most, close = 3, 17, 1e-15
	for digits := least; digits < most; digits++ {
		written := dim.Format(si, unit, digits)
		if x, err := dim.Parse(written); err == nil && math.Abs(x-si) <= close*math.Abs(si) {
			return written
		}
	}
	return dim.Format(si, unit, most)
}
