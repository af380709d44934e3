package table

import (
	"fmt"
	"math"
	"reflect"
)

// Finite refuses a value of which any number, however deep, is not finite, and
// names it.
func Finite(name string, value any) error {
	return walk(name, reflect.ValueOf(value))
}

func walk(name string, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("the answer cannot be shown: %s came out as %v, which is not a number that could be true; "+
				"please report the scenario", name, x)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return walk(name, v.Elem())
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := walk(fmt.Sprintf("%s[%d]", name, i+1), v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			field := v.Type().Field(i)
			if !field.IsExported() {
				continue
			}
			inner := name + "." + field.Name
			if field.Anonymous {
				inner = name
			}
			if err := walk(inner, v.Field(i)); err != nil {
				return err
			}
		}
	}
	return nil
}
