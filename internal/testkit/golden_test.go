package testkit

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDiffer(t *testing.T) {
	tests := []struct{ name, want, got, where string }{
		{"the same", `{"a":[1,null,"x"]}`, `{"a":[1,null,"x"]}`, ""},
		{"a number within the tolerance", `{"a":100}`, `{"a":100.05}`, ""},
		{"a number beyond it", `{"a":100}`, `{"a":100.2}`, ".a (number)"},
		{"a number that became a word", `[1]`, `["1"]`, "[0] (number)"},
		{"a shorter list", `[1,2]`, `[1]`, " (list)"},
		{"another word", `{"a":{"b":"x"}}`, `{"a":{"b":"y"}}`, ".a.b"},
		{"one field more", `{"a":1}`, `{"a":1,"b":2}`, " (object)"},
		{"a null under another name", `{"a":null}`, `{"b":null}`, ".a (missing)"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var a, b any
			require.NoError(t, json.Unmarshal([]byte(test.want), &a))
			require.NoError(t, json.Unmarshal([]byte(test.got), &b))
			assert.Equal(t, test.where, differ(a, b, 1e-3, ""))
		})
	}
}
