package wire_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/wire"
)

// Section 3.2.3 of RFC 8785 has the first row's texts; its appendix B the
// numbers.
func TestCanonical(t *testing.T) {
	for in, want := range map[string]string{
		`{ "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false] }`:                              `{"literals":[null,true,false],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
		`[333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001]`:                                                       `[333333333.3333333,1e+30,4.5,0.002,1e-27]`,
		`[-0.0, 5e-324, 1.7976931348623157e308, 9007199254740992, 295147905179352830000, 1e21, 9.999999999999997e22, 0.000001, 1e-7]`: `[0,5e-324,1.7976931348623157e+308,9007199254740992,295147905179352830000,1e+21,9.999999999999997e+22,0.000001,1e-7]`,
		`{"b":1,"a":{"d":[],"c":{}}}`: `{"a":{"c":{},"d":[]},"b":1}`,
	} {
		got, err := wire.Canonical([]byte(in))
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
}

func TestCanonical_bad(t *testing.T) {
	for _, in := range []string{
		``, `{`, `{"a":1,"a":2}`, `[1,]`, `1 2`, `NaN`, `[1e999]`, "\"\xff\"", `{"a"}`, `{"a":1`, `[`, `tru`,
		strings.Repeat("[", 17) + strings.Repeat("]", 17), strings.Repeat("[", 100000),
	} {
		_, err := wire.Canonical([]byte(in))
		assert.Error(t, err, in)
	}
}

// FuzzCanonical: the form is its own canonical form, and encoding/json reads
// the same value from it as from the text it was made of.
func FuzzCanonical(f *testing.F) {
	f.Add([]byte(`{"b":[1.50,"\u0041"],"a":null}`))
	f.Fuzz(func(t *testing.T, in []byte) {
		got, err := wire.Canonical(in)
		if err != nil {
			return
		}
		again, err := wire.Canonical(got)
		require.NoError(t, err)
		require.Equal(t, string(got), string(again))
		var before, after any
		require.NoError(t, json.Unmarshal(in, &before))
		require.NoError(t, json.Unmarshal(got, &after))
		require.Equal(t, before, after)
	})
}

// FuzzIsCanonical: what is taken for canonical at a glance is what the long way
// makes of it.
func FuzzIsCanonical(f *testing.F) {
	for _, seed := range []string{`{"a":[1.5,-2,1e+30,"€"],"b":{"c":null}}`, `{"a":1,"a":2}`, `[NaN]`, `[-0]`, `{"":{}}`, ` 1`, `"\u0041"`, `[1e5,01,1.]`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		if !wire.IsCanonical(in) {
			return
		}
		long, err := wire.MakeCanonical(in)
		require.NoError(t, err)
		require.Equal(t, string(long), string(in))
	})
}
