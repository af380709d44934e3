package heat

import (
	"fmt"
	"math"

	"strandry/diffusion/bounds"
	"strandry/diffusion/film"
	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// Wall is a housing with what its heat passes through.
type Wall struct {
	Housing
	Shell      Layer   // the housing itself, inwards from its size; thickness 0: none
	Insulation []Layer // round it, from the inside out; none: bare
	Emissivity float64 // of the outermost surface [-]; bright metal 0.05 to 0.1, paint, plastic and cloth about 0.9 (from memory)

	InnerFilm float64 // film coefficient inside [W/(m2 K)]; 0: by the correlations
	AirSpeed  float64 // of the air inside along its path [m/s], 0: still; not used with InnerFilm
	OuterFilm float64 // film coefficient of convection outside [W/(m2 K)], where a draught gives one; 0: still air
}

// Climate is what a wall stands between.
type Climate struct {
	Inside   float64 // air in the chamber [K], no colder than the room
	Room     float64 // air and walls of the room [K]
	Pressure float64 // total [Pa]
}

// FilmDoubt is the relative uncertainty [-] of the film coefficients that correlations give here, either way. Churchill & Chu
// and McAdams claim about a fifth; a real housing, with feet, neighbours and draughts, is a quarter at best (a judgement, no source).
const FilmDoubt = 0.25

// Face is what one face of a wall loses.
type Face struct {
	Name       string  // "mantle", "top", "bottom", "side", "end"
	Area       float64 // outside [m2]
	Power      float64 // [W]
	Surface    float64 // temperature outside [K]
	InnerFilm  float64 // film coefficient inside [W/(m2 K)]
	Convection float64 // film coefficient outside [W/(m2 K)]
	Radiation  float64 // coefficient outside [W/(m2 K)]
}

// Loss is what a wall loses.
type Loss struct {
	Power               float64 // [W]
	PowerLow, PowerHigh float64 // with all film coefficients of correlations FilmDoubt less or more [W]
	UA                  float64 // Power over the difference of the temperatures of air [W/K]; 0 without a difference
	Surface             float64 // temperature of the hottest face outside [K]
	SurfaceHigh         float64 // the same, with the film inside FilmDoubt better and that outside as much worse [K]
	Area                float64 // outside [m2]
	Faces               []Face
}

// check gives an error for the first quantity out of bounds.
func (w Wall) check() error {
	if w.Shape < LevelCylinder || w.Shape > Box {
		return fmt.Errorf("heat: unknown shape %v: allowed are %v, %v, %v", w.Shape, LevelCylinder, StandingCylinder, Box)
	}
	all := []bounds.Bound{
		length("length of the housing", w.Length), fraction("emissivity", w.Emissivity),
		bounds.Of("film coefficient inside", w.InnerFilm, 0, mostFilm, "W/(m2 K)"),
		bounds.Of("film coefficient outside", w.OuterFilm, 0, mostFilm, "W/(m2 K)"), bounds.Of("air speed inside", w.AirSpeed, 0, 100, "m/s"),
	}
	least := w.Diameter
	if w.Shape == Box {
		least = min(w.Width, w.Height)
		all = append(all, length("width of the housing", w.Width), length("height of the housing", w.Height))
	} else {
		all = append(all, length("diameter of the housing", w.Diameter))
	}
	if !w.OpenEnds {
		least = min(least, w.Length)
	}
	all = append(all, bounds.Of("thickness of the shell", w.Shell.Thickness, 0, 0.49*least, "m"))
	for i, l := range w.layers() {
		name := fmt.Sprintf("layer %d of the wall", i+1)
		all = append(all, bounds.Of("thickness of "+name, l.Thickness, 1e-6, mostLength, "m"),
			bounds.Of("conductivity of "+name, l.Conductivity, leastConductivity, mostConductivity, "W/(m K)"))
	}
	return bounds.First("heat", all...)
}

func (c Climate) check() error {
	if err := bounds.First("heat", temperature("room temperature", c.Room), temperature("chamber temperature", c.Inside),
		bounds.Of("pressure", c.Pressure, leastPressure, largestPressure, "Pa")); err != nil {
		return err
	}
	return bounds.First("heat", bounds.Celsius("chamber temperature", c.Inside, c.Room, hottest))
}

// Loss returns what the wall loses in a climate: the sum over its faces, each in balance by itself.
func (w Wall) Loss(c Climate) (Loss, error) {
	if err := w.check(); err != nil {
		return Loss{}, err
	}
	if err := c.check(); err != nil {
		return Loss{}, err
	}
	out, err := w.loss(c, 1, 1)
	if err != nil {
		return Loss{}, err
	}
	low, err := w.loss(c, 1-FilmDoubt, 1-FilmDoubt)
	if err != nil {
		return Loss{}, err
	}
	high, err := w.loss(c, 1+FilmDoubt, 1+FilmDoubt)
	if err != nil {
		return Loss{}, err
	}
	worst, err := w.loss(c, 1+FilmDoubt, 1-FilmDoubt)
	if err != nil {
		return Loss{}, err
	}
	out.PowerLow, out.PowerHigh, out.SurfaceHigh = low.Power, high.Power, worst.Surface
	return out, nil
}

// loss is Loss with the film coefficients of correlations times a factor inside and one outside.
func (w Wall) loss(c Climate, inside, outside float64) (Loss, error) {
	out := Loss{Surface: c.Room}
	var got Face
	var before face
	for _, f := range w.faces() {
		if f != before { // faces that are alike follow each other
			var err error
			b := chain{face: f, wall: w, climate: c, insideFactor: inside, outsideFactor: outside}
			if got, err = b.solved(); err != nil {
				return Loss{}, err
			}
			before = f
		}
		out.Faces = append(out.Faces, got)
		out.Power += got.Power
		out.Area += got.Area
		out.Surface = max(out.Surface, got.Surface)
	}
	if out.Power > 0 {
		out.UA = out.Power / (c.Inside - c.Room)
	}
	return out, nil
}

// chain is one face in a climate.
type chain struct {
	face
	wall                        Wall
	climate                     Climate
	insideFactor, outsideFactor float64
}

// leaving is what an outer surface loses [W] that is warmer than the room by so much [K], and the coefficients by which it does.
func (b chain) leaving(rise float64) (power, convection, radiation float64) {
	T := b.climate.Room + rise
	convection = b.wall.OuterFilm
	if convection == 0 {
		convection = b.outsideFactor * b.outside.coefficient(T, b.climate.Room, b.climate.Pressure)
	}
	radiation = film.Radiation(b.wall.Emissivity, T, b.climate.Room)
	return (convection + radiation) * b.outer * rise, convection, radiation
}

// innerFilm is the film coefficient inside [W/(m2 K)] at a temperature T [K] of the wall inside.
func (b chain) innerFilm(T float64) float64 {
	w, c := b.wall, b.climate
	if w.InnerFilm > 0 {
		return w.InnerFilm
	}
	natural := b.inside.coefficient(T, c.Inside, c.Pressure)
	if w.AirSpeed == 0 {
		return b.insideFactor * natural
	}
	mean := (T + c.Inside) / 2
	bore := w.bore()
	re := w.AirSpeed * bore / humidair.KinematicViscosity(mean, 0, c.Pressure)
	forced := DuctFlow(re, humidair.PrandtlNumber(mean, 0, c.Pressure), bore/w.Length) * humidair.Conductivity(mean) / bore
	return b.insideFactor * film.Mixed(forced, natural, 4)
}

// bore is the hydraulic diameter of the section that the air passes [m], the strand and what leads it left out.
func (w Wall) bore() float64 {
	if w.Shape != Box {
		return w.Diameter - 2*w.Shell.Thickness
	}
	a, b := w.Width-2*w.Shell.Thickness, w.Height-2*w.Shell.Thickness
	return 2 * a * b / (a + b)
}

// surplus is what comes to an outer surface less what it loses [W], at so much above the room [K]; it falls with that. Where the
// loss would need a wall hotter inside than the air, nothing comes, and the difference of these temperatures is taken off besides.
func (b chain) surplus(rise float64) (float64, error) {
	leaving, _, _ := b.leaving(rise)
	wall := rise + leaving*b.resistance // inside, above the room
	fall := b.climate.Inside - b.climate.Room - wall
	if fall <= 0 {
		return fall - leaving, nil
	}
	return b.innerFilm(b.climate.Room+wall)*b.inner*fall - leaving, nil
}

// solved finds how far the surface outside is above the room.
func (b chain) solved() (Face, error) {
	most := b.climate.Inside - b.climate.Room
	low, err := b.surplus(0)
	if err != nil {
		return Face{}, err
	}
	high, err := b.surplus(most)
	if err != nil {
		return Face{}, err
	}
	rise, err := root.Find(b.surplus, root.Bracket{A: 0, B: most, AtA: low, AtB: high}, root.Tolerance{})
	if err != nil {
		return Face{}, fmt.Errorf("heat: the %s of the wall finds no balance: %w", b.name, err)
	}
	out := Face{Name: b.name, Area: b.outer, Surface: b.climate.Room + rise}
	out.Power, out.Convection, out.Radiation = b.leaving(rise)
	out.InnerFilm = b.innerFilm(math.Min(b.climate.Inside, out.Surface+out.Power*b.resistance))
	return out, nil
}
