package figure

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// field is a quantity over a rectangular grid, u and v from 0 to 1, and linear along
// the edges of its cells; [field.finer] smooths it.
type field struct {
	u, v []float64
	z    [][]float64 // z[j][i] at u[i], v[j]
}

// finer divides the cells until there are at least so many each way. Between the values it is smooth, and goes no further than they do: monotone cubics
// (Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5:300-304 (1984)) along u, then along v.
func (f field) finer(least int) field {
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
	return f.over(split(f.u), split(f.v))
}

// over is the field at other places.
func (f field) over(u, v []float64) field {
	rows := make([][]float64, len(f.v))
	for j, row := range f.z {
		rows[j] = through(f.u, row, u)
	}
	out := field{u: u, v: v, z: make([][]float64, len(v))}
	for j := range out.z {
		out.z[j] = make([]float64, len(u))
	}
	column := make([]float64, len(f.v))
	for i := range u {
		for j := range column {
			column[j] = rows[j][i]
		}
		for j, z := range through(f.v, column, v) {
			out.z[j][i] = z
		}
	}
	return out
}

// through goes through values at rising places; it gives what lies at others. A single value holds everywhere.
func through(x, y, at []float64) []float64 {
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

// cell is the index of the interval that holds a value.
func cell(x []float64, at float64) int {
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

// within interpolates in a cell.
func (f field) within(i, j int, u, v float64) float64 {
	a := (u - f.u[i]) / (f.u[i+1] - f.u[i])
	b := (v - f.v[j]) / (f.v[j+1] - f.v[j])
	low := f.z[j][i] + (f.z[j][i+1]-f.z[j][i])*a
	high := f.z[j+1][i] + (f.z[j+1][i+1]-f.z[j+1][i])*a
	return low + (high-low)*b
}

// spot is a place in a field.
type spot struct{ u, v float64 }

// edge names the side of a cell: from node (i, j) to the right, or up.
type edge struct {
	i, j int
	up   bool
}

// contours follows a level through the field, as polylines; closed ones end where they begin.
func (f field) contours(level float64) [][]spot {
	next := map[edge][]edge{}
	var order []edge
	join := func(a, b edge) {
		next[a], next[b] = append(next[a], b), append(next[b], a)
		order = append(order, a, b)
	}
	for j := 0; j+1 < len(f.v); j++ {
		for i := 0; i+1 < len(f.u); i++ {
			f.cross(i, j, level, join)
		}
	}
	used := map[edge]bool{}
	var lines [][]spot
	follow := func(start edge) {
		line := []spot{f.on(start, level)}
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
			if !found && len(line) > 2 && contains(next[at], start) {
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

func contains(all []edge, e edge) bool {
	for _, a := range all {
		if a == e {
			return true
		}
	}
	return false
}

// cross joins the sides of a cell that the level crosses. In a saddle the mean of the
// corners decides.
func (f field) cross(i, j int, level float64, join func(a, b edge)) {
	corner := [4]bool{f.z[j][i] >= level, f.z[j][i+1] >= level, f.z[j+1][i+1] >= level, f.z[j+1][i] >= level}
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
		middle := (f.z[j][i]+f.z[j][i+1]+f.z[j+1][i+1]+f.z[j+1][i])/4 >= level
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
func (f field) on(e edge, level float64) spot {
	a := f.z[e.j][e.i]
	if e.up {
		at := share(a, f.z[e.j+1][e.i], level)
		return spot{f.u[e.i], f.v[e.j] + (f.v[e.j+1]-f.v[e.j])*at}
	}
	at := share(a, f.z[e.j][e.i+1], level)
	return spot{f.u[e.i] + (f.u[e.i+1]-f.u[e.i])*at, f.v[e.j]}
}

func share(a, b, level float64) float64 {
	if a == b {
		return 0.5
	}
	return math.Min(math.Max((level-a)/(b-a), 0), 1)
}
