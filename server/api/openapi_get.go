package api

import (
	"encoding/json"
	"net/http"
	"sync"

	"tautspan/internal/engine"
	"tautspan/server/reply"
)

// openapiGet is GET /api/v1/openapi.json: all of HTTP in OpenAPI 3.1, made from
// the same descriptions that read and write the messages.
func openapiGet(w http.ResponseWriter, _ *http.Request) {
	reply.JSON(w, http.StatusOK, openapi())
}

type object = map[string]any

// openapi is made once, at the first request for it.
var openapi = sync.OnceValue(func() []byte {
	document := object{
		"openapi": "3.1.0",
		"info": object{
			"title": "Tautspan", "version": "1",
			"description": "Bicycle chain wear and sizing. Lengths in mm, distances in km, elongation in percent of pitch. " +
				"The answers are guidance, not an inspection.",
		},
		"paths":      paths(),
		"components": object{"schemas": object{"Error": json.RawMessage(engine.ErrorSchema())}},
	}
	out, err := json.Marshal(document)
	if err != nil {
		panic("api: the OpenAPI document does not marshal: " + err.Error())
	}
	return out
})

func paths() object {
	all := object{
		"/healthz":             object{"get": operation("Whether the process answers", nil, []byte(`{"type":"object"}`))},
		"/api/v1/openapi.json": object{"get": operation("This document", nil, []byte(`{"type":"object"}`))},
	}
	for _, c := range engine.Calculations() {
		all["/api/v1/calc/"+c.Name] = object{
			"post": operation(c.Summary, engine.RequestSchema(c), engine.ResponseSchema(c)),
		}
	}
	return all
}

// operation describes one action; request is nil for one without a body.
func operation(summary string, request, response []byte) object {
	o := object{
		"summary": summary,
		"responses": object{
			"200":     object{"description": "the answer", "content": jsonContent(json.RawMessage(response))},
			"default": object{"description": "an error in plain words", "content": jsonContent(object{"$ref": "#/components/schemas/Error"})},
		},
	}
	if request != nil {
		o["requestBody"] = object{"required": true, "content": jsonContent(json.RawMessage(request))}
	}
	return o
}

func jsonContent(schema any) object {
	return object{"application/json": object{"schema": schema}}
}
