// Package field follows a quantity over a rectangle of its own: smooth between the places where it is known, with the lines along which it has a value.
package field

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// Field is a quantity over a rectangular grid, and linear along the edges of its cells; [Field.Finer] smooths it.
type Field struct {
	U, V []float64   // rising
	Z    [][]float64 // Z[j][i] at U[i], V[j]
}

// Finer divides the cells until there are at least so many each way. Between the values it is smooth, and goes no further than they do: monotone cubics
// (Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5:300-304 (1984)) along u, then along v.
func (f Field) Finer(least int) Field {
	split := func(x []float64) []float64 {
		parts := max(1, (least+len(x)-2)/(len(x)-1))
		var out []float64
		for i := 0; i+1 < len(x); i++ {
			for k := range parts {
				out = append(out, x[i]+(x[i+1]-x[i])*float64(k)/float64(parts))
			}
		}
		return append(out, x[len(x)-1])
	}
	return f.over(split(f.U), split(f.V))
}

// over is the field at other places.
func (f Field) over(u, v []float64) Field {
	rows := make([][]float64, len(f.V))
	for j, row := range f.Z {
		rows[j] = Through(f.U, row, u)
	}
	return Field{U: u, V: v, Z: transposed(columns(f.V, rows, v))}
}

// columns goes through each column of rows that lie at rising places; it gives what lies at others, column by column.
func columns(v []float64, rows [][]float64, at []float64) [][]float64 {
	var out [][]float64
	for _, column := range transposed(rows) {
		out = append(out, Through(v, column, at))
	}
	return out
}

func transposed(rows [][]float64) [][]float64 {
	out := make([][]float64, len(rows[0]))
	for i := range out {
		for _, row := range rows {
			out[i] = append(out[i], row[i])
		}
	}
	return out
}

// Slanting is the field at other places, smooth as by [Field.Finer], but that what lies between two lines of V is looked for along a slant: so much of U for one of V.
func (f Field) Slanting(u, v []float64, slant float64) Field {
	out := Field{U: u, V: v}
	for _, at := range v {
		rows := make([][]float64, len(f.V))
		for k, line := range f.V {
			moved := make([]float64, len(u))
			for i, x := range u {
				moved[i] = x + slant*(line-at)
			}
			rows[k] = Through(f.U, f.Z[k], moved)
		}
		out.Z = append(out.Z, transposed(columns(f.V, rows, []float64{at}))[0])
	}
	return out
}

// At is the field at a place.
func (f Field) At(u, v float64) float64 { return inCell(f.Z, dotAt(f.U, u), dotAt(f.V, v)) }

// Through is a smooth line through values at rising places x, which goes no further than they do; it gives what lies at others, each end beyond its end. A single value holds everywhere.
func Through(x, y, at []float64) []float64 {
	out := make([]float64, len(at))
	if len(x) == 1 {
		for i := range out {
			out[i] = y[0]
		}
		return out
	}
	var curve interp.FritschButland
	if err := curve.Fit(x, y); err != nil {
		return out
	}
	for i, place := range at {
		out[i] = curve.Predict(math.Min(math.Max(place, x[0]), x[len(x)-1]))
	}
	return out
}

// Cell is the index of the interval of rising places that holds one.
func Cell(x []float64, at float64) int {
	low, high := 0, len(x)-1
	for high-low > 1 {
		if middle := (low + high) / 2; x[middle] <= at {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// Dots is a field at the middles of dots that are laid over the unit square.
type Dots struct {
	z       [][]float64
	columns []dot // from the left
	rows    []dot // from the top
}

// dot is where a row or a column of dots lies: in which cell, and how far in it.
type dot struct {
	cell  int
	share float64
}

func dotAt(x []float64, at float64) dot {
	i := Cell(x, at)
	return dot{i, (at - x[i]) / (x[i+1] - x[i])}
}

// Dots lays so many over the unit square.
func (f Field) Dots(width, height int) Dots {
	d := Dots{z: f.Z}
	for column := range width {
		d.columns = append(d.columns, dotAt(f.U, (float64(column)+0.5)/float64(width)))
	}
	for row := range height {
		d.rows = append(d.rows, dotAt(f.V, 1-(float64(row)+0.5)/float64(height)))
	}
	return d
}

// At is the field at a dot, in a column from the left and a row from the top.
func (d *Dots) At(column, row int) float64 { return inCell(d.z, d.columns[column], d.rows[row]) }

// inCell interpolates in a cell.
func inCell(z [][]float64, u, v dot) float64 {
	below, above := z[v.cell][u.cell:], z[v.cell+1][u.cell:]
	low, high := below[0]+(below[1]-below[0])*u.share, above[0]+(above[1]-above[0])*u.share
	return low + (high-low)*v.share
}

// Point is a place in a field.
type Point struct{ U, V float64 }

// edge names the side of a cell: from node (i, j) to the right, or up.
type edge struct {
	i, j int
	up   bool
}

// Contours follows a level through the field, as polylines; closed ones end where they begin.
func (f Field) Contours(level float64) [][]Point {
	next := map[edge][]edge{}
	var order []edge
	join := func(a, b edge) {
		next[a], next[b] = append(next[a], b), append(next[b], a)
		order = append(order, a, b)
	}
	for j := 0; j+1 < len(f.V); j++ {
		for i := 0; i+1 < len(f.U); i++ {
			f.cross(i, j, level, join)
		}
	}
	used := map[edge]bool{}
	var lines [][]Point
	follow := func(start edge) {
		line := []Point{f.on(start, level)}
		used[start] = true
		for at, found := start, true; found; {
			found = false
			for _, n := range next[at] {
				if !used[n] {
					used[n], at, found = true, n, true
					line = append(line, f.on(n, level))
					break
				}
			}
			if !found && len(line) > 2 && slices.Contains(next[at], start) {
				line = append(line, line[0])
			}
		}
		if len(line) > 1 {
			lines = append(lines, line)
		}
	}
	for _, e := range order { // open lines begin at the border
		if len(next[e]) == 1 && !used[e] {
			follow(e)
		}
	}
	for _, e := range order {
		if !used[e] {
			follow(e)
		}
	}
	return lines
}

// cross joins the sides of a cell that the level crosses. In a saddle the mean of the
// corners decides.
func (f Field) cross(i, j int, level float64, join func(a, b edge)) {
	corner := [4]bool{f.Z[j][i] >= level, f.Z[j][i+1] >= level, f.Z[j+1][i+1] >= level, f.Z[j+1][i] >= level}
	sides := [4]edge{{i, j, false}, {i + 1, j, true}, {i, j + 1, false}, {i, j, true}}
	var cut []int
	for k := range 4 {
		if corner[k] != corner[(k+1)%4] {
			cut = append(cut, k)
		}
	}
	switch len(cut) {
	case 2:
		join(sides[cut[0]], sides[cut[1]])
	case 4:
		middle := (f.Z[j][i]+f.Z[j][i+1]+f.Z[j+1][i+1]+f.Z[j+1][i])/4 >= level
		if middle == corner[0] {
			join(sides[0], sides[1])
			join(sides[2], sides[3])
		} else {
			join(sides[3], sides[0])
			join(sides[1], sides[2])
		}
	}
}

// on is where the level crosses an edge.
func (f Field) on(e edge, level float64) Point {
	a := f.Z[e.j][e.i]
	if e.up {
		at := share(a, f.Z[e.j+1][e.i], level)
		return Point{f.U[e.i], f.V[e.j] + (f.V[e.j+1]-f.V[e.j])*at}
	}
	at := share(a, f.Z[e.j][e.i+1], level)
	return Point{f.U[e.i] + (f.U[e.i+1]-f.U[e.i])*at, f.V[e.j]}
}

func share(a, b, level float64) float64 {
	if a == b {
		return 0.5
	}
	return math.Min(math.Max((level-a)/(b-a), 0), 1)
}
