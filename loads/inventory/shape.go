package inventory

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"branchwork/loads/units"
)

// schema is a piece of a JSON Schema, draft 7: what editors know.
type schema = map[string]any

// shape is what a machine can check of one value by itself. It never refuses what
// the reader takes; what hangs on other values stays with the reader.
type shape func(Vocabulary) schema

// plainly is any value of a type.
func plainly(kind string) shape { return func(Vocabulary) schema { return schema{"type": kind} } }

// pattern is a text of a form.
func pattern(form string) shape {
	return func(Vocabulary) schema { return schema{"type": "string", "pattern": form} }
}

// oneOf is one of a few words, exactly.
func oneOf(words []string) shape {
	return func(Vocabulary) schema { return schema{"enum": words} }
}

// offered offers the words of a code of practice and takes others too, because
// another code may have them and letters may be large or small.
func offered(words func(Vocabulary) []string) shape {
	return func(v Vocabulary) schema {
		known := words(v)
		if len(known) == 0 {
			return schema{"type": "string"}
		}
		return schema{"anyOf": []schema{{"enum": known}, {"type": "string", "pattern": `\S`}}}
	}
}

func anyOf(shapes ...shape) shape {
	return func(v Vocabulary) schema {
		all := make([]schema, len(shapes))
		for i, s := range shapes {
			all[i] = s(v)
		}
		return schema{"anyOf": all}
	}
}

// listOf is a list that holds something.
func listOf(of shape) shape {
	return func(v Vocabulary) schema { return schema{"type": "array", "minItems": 1, "items": of(v)} }
}

// listOfAny is a list that may be empty.
func listOfAny(of shape) shape {
	return func(v Vocabulary) schema { return schema{"type": "array", "items": of(v)} }
}

func orList(of shape) shape { return anyOf(of, listOf(of)) }

// tableOf is a table whose keys are values too, of a form where one is given.
func tableOf(names string, of shape) shape {
	return func(v Vocabulary) schema {
		s := schema{"type": "object", "minProperties": 1, "additionalProperties": of(v)}
		if names != "" {
			s["propertyNames"] = schema{"pattern": names}
		}
		return s
	}
}

// tableWith is a table with keys of the schema.
func tableWith(keys []Key) shape {
	return func(v Vocabulary) schema { return tableSchema(keys, v) }
}

func quantityShape[T units.Quantity](l limits) shape {
	return pattern(quantityPattern(l.least < 0, units.Names[T]()))
}

// quantityPattern is a number and one of the units. Numbers are looked at closely
// by the reader.
func quantityPattern(signed bool, names ...[]string) string {
	var all []string
	for _, n := range slices.Concat(names...) {
		all = append(all, regexp.QuoteMeta(n))
	}
	sign := ""
	if signed {
		sign = "-?"
	}
	return fmt.Sprintf(`^\s*%s[0-9.,]+([eE][0-9]+)?\s*(%s)\s*$`, sign, strings.Join(all, "|"))
}

func voltageShape() shape {
	const number = `[0-9.,]+([eE][0-9]+)?`
	return pattern(fmt.Sprintf(`^\s*%s(\s*-\s*%s)?\s*k?V\s*$`, number, number))
}

func windowShape() shape {
	const time = `\s*[0-9]{1,2}:[0-9]{2}\s*`
	return pattern(`^(\s*always\s*|\s*never\s*|` + time + "-" + time + ")$")
}

func priceShape(per string) shape {
	return pattern(`^\s*[0-9.]+\s*` + per + `\s*$`)
}

func countShape(l limits) shape {
	return func(Vocabulary) schema {
		return schema{"type": "integer", "minimum": int(l.least), "maximum": int(l.most)}
	}
}

func factorShape(l limits) shape {
	return func(Vocabulary) schema {
		s := schema{"type": "number", "minimum": l.least, "maximum": l.most}
		if l.open {
			delete(s, "minimum")
			s["exclusiveMinimum"] = l.least
		}
		return s
	}
}
