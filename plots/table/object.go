package table

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"reflect"
)

// object is what JSON calls one, its members in the order given.
type object []member

// member is a value with its name. One without a name is an object whose members stand in its place, or nothing.
type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order; a list that is nil is empty.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	if err := o.members(&b, e); err != nil {
		return nil, err
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func (o object) members(b *bytes.Buffer, e *json.Encoder) error {
	for _, m := range o {
		if m.name == "" {
			within, _ := m.value.(object)
			if err := within.members(b, e); err != nil {
				return err
			}
			continue
		}
		if v := reflect.ValueOf(m.value); v.Kind() == reflect.Slice && v.IsNil() {
			m.value = [0]int{}
		}
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		if err := e.Encode(m.name); err != nil {
			return err
		}
		b.WriteByte(':')
		if err := e.Encode(m.value); err != nil {
			return err
		}
	}
	return nil
}

// filled is a member that is left out where it is zero.
func filled[T comparable](name string, value T) member {
	var zero T
	if value == zero {
		return member{}
	}
	return member{name, value}
}

// each is a list of what becomes of the entries of another.
func each[T any](all []T, of func(one *T) object) []object {
	out := make([]object, len(all))
	for i := range all {
		out[i] = of(&all[i])
	}
	return out
}

// orNull is a number, or nil for what is none.
func orNull(x float64) any {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return x
}

// encode writes a value as indented JSON.
func encode(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
