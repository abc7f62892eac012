package bench

import (
	"reflect"

	"evendrop/cmd/internal/legible"
)

// legibly makes every text in these values, which are pointers, slices and structs of the
// border, one that turns no writing round.
func legibly(values ...any) {
	for _, v := range values {
		texts(reflect.ValueOf(v))
	}
}

func texts(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			texts(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			texts(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			texts(v.Field(i))
		}
	case reflect.String:
		if text := v.String(); v.CanSet() {
			v.SetString(legible.Text(text))
		}
	}
}
