package api

import (
	"encoding/json"
	"net/http"
	"strings"
	"sync"

	"tautspan/internal/engine"
	"tautspan/internal/wire"
	"tautspan/server/reply"
)

// openapiGet is GET /api/v1/openapi.json: all of HTTP in OpenAPI 3.1, made from
// the same descriptions that read and write the messages.
func openapiGet(_ *actions, w http.ResponseWriter, _ *http.Request) error {
	reply.JSON(w, http.StatusOK, openapi())
	return nil
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
		"paths": paths(),
		"components": object{
			"schemas":         object{"Error": json.RawMessage(engine.ErrorSchema())},
			"securitySchemes": object{"token": object{"type": "http", "scheme": "bearer"}},
		},
	}
	out, err := json.Marshal(document)
	if err != nil {
		panic("api: the OpenAPI document does not marshal: " + err.Error())
	}
	return out
})

func paths() object {
	all := object{}
	for _, c := range engine.Calculations() {
		all["/api/v1/calc/"+c.Name] = object{
			"post": operation(c.Summary, engine.RequestSchema(c), engine.ResponseSchema(c)),
		}
	}
	for _, route := range routes {
		if route.Summary == "" { // the calculations, listed one by one above
			continue
		}
		path, ok := all[route.Path].(object)
		if !ok {
			path = object{"parameters": parameters(route.Path)}
			all[route.Path] = path
		}
		path[strings.ToLower(route.Method)] = describe(route)
	}
	return all
}

func describe(route Route) object {
	var request []byte
	response := []byte(`{}`)
	if route.Request != nil {
		request = wire.Schema(route.Request())
	}
	if route.Response != nil {
		response = wire.Schema(route.Response())
	}
	o := operation(route.Summary, request, response)
	if route.Least != "" {
		o["security"] = []object{{"token": []string{}}}
		o["description"] = "Takes the role " + string(route.Least) + " or one that may do more."
	}
	return o
}

// parameters lists the names in braces.
func parameters(path string) []object {
	list := []object{}
	for _, part := range strings.Split(path, "/") {
		if name, ok := strings.CutPrefix(part, "{"); ok {
			list = append(list, object{"name": strings.TrimSuffix(name, "}"), "in": "path", "required": true, "schema": object{"type": "string"}})
		}
	}
	return list
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
