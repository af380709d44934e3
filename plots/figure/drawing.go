package figure

import (
	"fmt"
	"math"
	"slices"
	"unicode/utf8"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strandry/scenarios"
)

// Machine is the chambers of a dryer whose shape is stated, drawn to scale: how the strand is led, the housing and its insulation, where strand and air go in and out, and the box that a
// chamber does not fit into.
type Machine struct {
	Frame
	Chambers []Chamber
	Box      machine.Box // into which each chamber has to fit; zero where none is stated
	Left     int         // chambers for which the page has no room
}

// Chamber is one of them.
type Chamber struct {
	Name        string
	Temperature float64 // of its air [K]
	Length      float64 // of strand in it [m]
	Holds       float64 // strand that it would hold [m]
	Way         shape.Way
	Outline     shape.Outline
	Outer       [3]float64 // length, width and height, insulation included [m]
	Insulation  float64    // its thickness [m]; zero for none
	Fits        bool       // into the box
	Most        float64    // strand that the box holds in such a shape at most [m]; zero where none fits

	Heated  bool
	Heater  float64             // power that is stated [W]; zero for none
	Needed  float64             // in the steady state [W]
	Size    float64             // of the heater to take [W]
	Flow    float64             // of air [m³/s], a volume at the temperature of the room; zero where it is without limit
	Against diffusion.Direction // how the air meets the strand
}

// mostChambers is how many a page has room for.
const mostChambers = 4

// NoShape is why there is no such drawing.
const NoShape = "no zone says how the strand is led: its shape"

// MachineOf draws up the chambers whose shape is stated; false where none is.
func MachineOf(s *scenarios.Scenario, a *machine.Answer, f Frame) (out Machine, any bool, err error) {
	out = Machine{Frame: f, Box: s.Machine.Box}
	for i := range a.Chambers {
		if !a.Chambers[i].Led {
			continue
		}
		if len(out.Chambers) == mostChambers {
			out.Left++
			continue
		}
		c, err := chamberOf(s, a, i)
		if err != nil {
			return out, false, err
		}
		out.Chambers = append(out.Chambers, c)
	}
	return out, len(out.Chambers) > 0, nil
}

func chamberOf(s *scenarios.Scenario, a *machine.Answer, i int) (Chamber, error) {
	h, stated, z := &a.Chambers[i], &s.Machine.Chambers[i], &s.Design.Path[i]
	c := Chamber{
		Name: h.Name, Temperature: z.Air.Temperature, Length: h.Length, Holds: h.Lead.Length, Outer: h.Outer, Insulation: stated.Wall.Insulation, Fits: h.Fits, Most: h.Most,
		Heated: h.Heated, Heater: h.Heater, Needed: math.Max(0, h.Steady.Heater), Size: h.Size, Against: z.Air.Direction,
	}
	if h.Water.Limited {
		c.Flow = h.Water.Flow
	}
	var err error
	if c.Way, err = s.Machine.Way(&s.Design, i); err != nil {
		return c, err
	}
	c.Outline, err = c.Way.Outline(2*s.Design.Radius, z.Air.Direction == diffusion.Against)
	return c, err
}

func (f Machine) check() error {
	if len(f.Chambers) == 0 {
		return errEmpty
	}
	for _, c := range f.Chambers {
		if c.Way == nil || len(c.Outline.Views) != 2 {
			return errEmpty
		}
		if err := positive("size of "+c.Name, slices.Concat(c.Outer[:], []float64{c.Outline.Strand})...); err != nil {
			return err
		}
		for _, v := range c.Outline.Views {
			if err := positive("size of "+c.Name, v.Width, v.Height); err != nil {
				return err
			}
		}
		if c.Insulation < 0 {
			return fmt.Errorf("figure: insulation of %g m round %s", c.Insulation, c.Name)
		}
	}
	return nil
}

// boxed tells that a box is stated.
func (f Machine) boxed() bool { return f.Box != machine.Box{} }

// Headline says how long a strand is held, how large that is, and whether it fits.
func (f Machine) Headline() string {
	if len(f.Chambers) == 1 && f.Left == 0 {
		c := &f.Chambers[0]
		return fmt.Sprintf("%s %s: %s%s", words.Place(c.Length), c.led(), c.sizes(), f.fits(c))
	}
	held, wide, all := 0.0, "", true
	for i := range f.Chambers {
		c := &f.Chambers[i]
		held += c.Length
		if f.boxed() && !c.Fits && all {
			wide, all = c.Name, false
		}
	}
	text := fmt.Sprintf("%d chambers hold %s of strand", len(f.Chambers), words.Place(held))
	switch {
	case !f.boxed():
		text += ", the largest " + f.largest().sizes()
	case all:
		text += "; each fits the box"
	default:
		text += "; " + wide + " does not fit the box"
	}
	return text
}

func (f Machine) largest() *Chamber {
	best := 0
	for i := range f.Chambers {
		if o, b := f.Chambers[i].Outer, f.Chambers[best].Outer; o[0]*o[1]*o[2] > b[0]*b[1]*b[2] {
			best = i
		}
	}
	return &f.Chambers[best]
}

func (f Machine) fits(c *Chamber) string {
	switch {
	case !f.boxed():
		return ""
	case c.Fits:
		return ", fits the box"
	}
	return ", does not fit the box"
}

// led says on what the strand is led.
func (c *Chamber) led() string {
	switch c.Way.(type) {
	case shape.Winding:
		return "on a drum"
	case shape.Passes:
		return "over rollers"
	}
	return "in a tube"
}

// mm prints a length [m] to the millimetre; a short one to three digits.
func mm(x float64) string {
	const short = 0.1
	if x < short {
		return words.Digits(1000*x, 3) + words.NBSP + "mm"
	}
	return wholeMillimetres(x) + words.NBSP + "mm"
}

// wholeMillimetres prints a length [m].
func wholeMillimetres(x float64) string { return words.Spaced(fmt.Sprintf("%.0f", 1000*x)) }

// threeSizes are a length, a width and a height.
func threeSizes(s [3]float64) string {
	return wholeMillimetres(s[0]) + " × " + wholeMillimetres(s[1]) + " × " + wholeMillimetres(s[2]) + words.NBSP + "mm"
}

func (c *Chamber) sizes() string { return threeSizes(c.Outer) }

func watts(p float64) string { return words.Digits(p, 2) + words.NBSP + "W" }

func litres(flow float64) string { return words.Digits(6e4*flow, 3) + words.NBSP + "L/min" }

// ends tells that it is known at which ends of the chamber its air goes in and out.
func (c *Chamber) ends() bool { return c.Flow > 0 && c.Against != diffusion.Mixed }

// facts are lines above the drawing of a chamber.
func (c *Chamber) facts(f *Machine) []string {
	facts := []string{c.way(), c.warmth()}
	switch {
	case c.Flow == 0:
		facts = append(facts, "Air: no flow is stated, so where it goes in and out is not known")
	case !c.ends():
		facts = append(facts, "Air: "+litres(c.Flow)+", mixed; where it goes in and out is not known")
	}
	box := "the box of " + threeSizes([3]float64{f.Box.Length, f.Box.Width, f.Box.Height})
	switch {
	case !f.boxed():
	case c.Fits:
		facts = append(facts, "Fits "+box)
	case c.Most > 0:
		facts = append(facts, "Does not fit "+box+" (dashed), which holds "+words.Place(c.Most)+" so led")
	default:
		facts = append(facts, "Does not fit "+box+" (dashed), nor any so led")
	}
	return facts
}

// way says how the strand is led, in numbers.
func (c *Chamber) way() string {
	more := ""
	if c.Holds > 1.01*c.Length {
		more = "; holds up to " + words.Place(c.Holds)
	}
	switch w := c.Way.(type) {
	case shape.Winding:
		layers := "one layer"
		if w.Layers > 1 {
			layers = fmt.Sprintf("each of %d layers", w.Layers)
		}
		return fmt.Sprintf("%s turns in %s, %s apart; %s from strand to housing%s", words.Digits(w.Turns, 3), layers, mm(w.Pitch), mm(w.Gap), more)
	case shape.Passes:
		return fmt.Sprintf("%d passes, %s apart; %s from strand to housing%s", w.Count, mm(c.pitch()), mm(w.Gap), more)
	case shape.Tube:
		return "A tube of " + mm(w.Bore) + " bore; the strand is drawn on its floor"
	}
	return ""
}

// pitch is from turn to turn or from pass to pass [m]; zero where there are none.
func (c *Chamber) pitch() float64 {
	switch w := c.Way.(type) {
	case shape.Winding:
		return w.Pitch
	case shape.Passes:
		return max(w.Spacing, w.Roller+c.Outline.Strand)
	}
	return 0
}

// warmth is what heats the chamber and what holds the heat.
func (c *Chamber) warmth() string {
	wall := "bare wall"
	if c.Insulation > 0 {
		wall = mm(c.Insulation) + " of insulation all round"
	}
	switch {
	case !c.Heated:
		return "Not heated; " + wall
	case c.Heater > 0:
		return fmt.Sprintf("Heater: %s stated, %s needed; its place is not known; %s", watts(c.Heater), watts(c.Needed), wall)
	}
	return fmt.Sprintf("Heater: take %s, %s needed; its place is not known; %s", watts(c.Size), watts(c.Needed), wall)
}

// lines is about how many lines a text takes, rather too many.
func lines(text string, inOne float64) canvas.Length {
	return canvas.Length(math.Ceil(float64(utf8.RuneCountInString(text)) / inOne))
}

func (f Machine) height() canvas.Length {
	const margins, headline, foot = 38, 58, 100 // letters in a line of either
	sum := margins + 21.6*min(3, lines(f.Headline(), headline)) + 13.8*lines(f.foot(), foot)
	for i := range f.Chambers {
		sum += f.plan(i).height
	}
	if f.Left > 0 {
		sum += rowPitch
	}
	return sum
}

func (f Machine) draw(s *canvas.Sheet, room canvas.Rectangle) {
	for i := range f.Chambers {
		p := f.plan(i)
		row := canvas.Rectangle{Min: canvas.Point{X: room.Min.X, Y: room.Max.Y - p.height}, Max: room.Max}
		p.draw(s, row)
		room.Max.Y = row.Min.Y
	}
	if f.Left > 0 {
		s.Put(s.Style(canvas.TickSize, palette.Quiet, false), canvas.Point{X: room.Min.X, Y: room.Max.Y - rowPitch}, canvas.AboveRight, fmt.Sprintf("And %d more chambers, not drawn", f.Left))
	}
}
