package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/testkit"
)

// serve runs the real serve command on a free port and returns its base URL.
func serve(t *testing.T) string {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	logs, write := io.Pipe()
	done := make(chan int, 1)
	go func() {
		done <- run(ctx, []string{"serve", "--addr", "127.0.0.1:0", "--data", t.TempDir()}, nil, io.Discard, write)
		_ = write.Close()
	}()
	lines := bufio.NewScanner(logs)
	require.True(t, lines.Scan(), "no log line came")
	var line struct{ Address string }
	require.NoError(t, json.Unmarshal(lines.Bytes(), &line))
	go func() { _, _ = io.Copy(io.Discard, logs) }()
	t.Cleanup(func() {
		stop()
		assert.Equal(t, 0, <-done, "the server stops cleanly")
	})
	return "http://" + line.Address
}

// Every golden request gives the same bytes over HTTP and from the shell, and
// both agree with the golden answer.
func TestDoors_answerAlike(t *testing.T) {
	base := serve(t)
	for _, g := range testkit.Goldens(t) {
		t.Run(g.Calculation+"/"+g.Name, func(t *testing.T) {
			resp, err := http.Post(base+"/api/v1/calc/"+g.Calculation, "application/json", bytes.NewReader(g.Request))
			require.NoError(t, err)
			defer resp.Body.Close()
			overHTTP, err := io.ReadAll(resp.Body)
			require.NoError(t, err)

			var out, errs bytes.Buffer
			status := run(t.Context(), []string{"calc", g.Calculation}, bytes.NewReader(g.Request), &out, &errs)
			shell := &out
			if isError := bytes.Contains(g.Answer, []byte(`{"error":`)); isError {
				assert.Equal(t, 2, status)
				assert.Equal(t, http.StatusBadRequest, resp.StatusCode)
				assert.Empty(t, out.String())
				shell = &errs
			} else {
				assert.Equal(t, 0, status)
				assert.Equal(t, http.StatusOK, resp.StatusCode)
				assert.Empty(t, errs.String())
			}
			assert.Equal(t, shell.String(), string(overHTTP))
			testkit.RequireJSONNear(t, g.Answer, overHTTP, 1e-9)
		})
	}
}

func TestDoors_badRequests(t *testing.T) {
	base := serve(t)
	for _, row := range []struct {
		name, method, path, body string
		status                   int
		contains                 string
	}{
		{"unknown calculation", "POST", "/api/v1/calc/waer", `{}`, 404, "unknown_name"},
		{"too large", "POST", "/api/v1/calc/wear", strings.Repeat(" ", engine.MaxRequestBytes+1), 413, "too_large"},
		{"wrong method", "GET", "/api/v1/calc/wear", ``, 405, "not_allowed"},
		{"no such address", "GET", "/api/v1/nothing", ``, 404, "not_found"},
		{"empty body", "POST", "/api/v1/calc/wear", ``, 400, "invalid_json"},
	} {
		t.Run(row.name, func(t *testing.T) {
			req, err := http.NewRequest(row.method, base+row.path, strings.NewReader(row.body))
			require.NoError(t, err)
			resp, err := http.DefaultClient.Do(req)
			require.NoError(t, err)
			defer resp.Body.Close()
			body, err := io.ReadAll(resp.Body)
			require.NoError(t, err)
			assert.Equal(t, row.status, resp.StatusCode)
			assert.Contains(t, string(body), row.contains)
			assert.Equal(t, "nosniff", resp.Header.Get("X-Content-Type-Options"))
		})
	}
}

func TestOpenAPI_hasEveryCalculation(t *testing.T) {
	resp, err := http.Get(serve(t) + "/api/v1/openapi.json")
	require.NoError(t, err)
	defer resp.Body.Close()
	var document struct {
		OpenAPI string
		Paths   map[string]any
	}
	require.NoError(t, json.NewDecoder(resp.Body).Decode(&document))
	assert.Equal(t, "3.1.0", document.OpenAPI)
	for _, c := range engine.Calculations() {
		assert.Contains(t, document.Paths, "/api/v1/calc/"+c.Name)
	}
}

func TestRun_commandLine(t *testing.T) {
	for _, row := range []struct {
		args     []string
		status   int
		contains string
	}{
		{[]string{"version"}, 0, "tautspan"},
		{[]string{"calc"}, 0, "wear"},
		{[]string{"calc", "waer"}, 2, "unknown_name"},
		{[]string{""}, 2, "there is no command"},
		{[]string{"ride"}, 2, "there is no command"},
		{[]string{"serve", "--adr", "x"}, 2, "-addr"},
		{[]string{"serve", "now"}, 2, "not expected"},
	} {
		var out, errs bytes.Buffer
		status := run(t.Context(), row.args, strings.NewReader("{}"), &out, &errs)
		assert.Equal(t, row.status, status, "%v", row.args)
		assert.Contains(t, out.String()+errs.String(), row.contains, "%v", row.args)
	}
}
