#!/bin/sh
# The whole way with curl: save a recipe, change it safely, overrule a weight, sign off, see the events.
#
#   sh save_and_review.sh [URL]
#
# LEDGER_KEY is an API key with the scopes save, review and sign, if the service asks for one.
set -eu
url=${1:-http://127.0.0.1:8080}
json='Content-Type: application/json'
key="Authorization: ${LEDGER_KEY:+Bearer $LEDGER_KEY}"
ask() { curl --silent --show-error --fail-with-body -H "$key" "$@"; }
tag_of() { ask --output /dev/null --write-out '%header{etag}' "$url/v1/recipes/quay-soup"; }

echo "Save it:"
ask -X PUT "$url/v1/recipes/quay-soup" -H "$json" --output /dev/null --write-out '%{http_code} %header{etag}\n' --data '{
  "title": "Tern Quay potato soup", "servings": 4,
  "ingredients": ["800 g potatoes", "1 litre water", "2 tsp table salt"]}'

echo "Change it, unless somebody else did:"
ask -X PUT "$url/v1/recipes/quay-soup" -H "$json" -H "If-Match: $(tag_of)" --output /dev/null --write-out '%{http_code}\n' --data '{
  "title": "Tern Quay potato soup", "servings": 4,
  "ingredients": ["800 g potatoes", "1 litre water", "1 1/2 tsp table salt"]}'

echo "Which line moved the sodium:"
ask "$url/v1/recipes/quay-soup/difference"

echo "What waits for review:"
ask "$url/v1/recipes?needs=review"

echo "The kitchen weighed the salt:"
ask -X POST "$url/v1/recipes/quay-soup/overrules" -H "$json" -H "If-Match: $(tag_of)" --output /dev/null --write-out '%{http_code}\n' --data '{
  "reviewer": "Ines Ware, dietitian",
  "overrules": [{"pointer": "/ingredients/2", "field": "grams", "value": 7.5, "reason": "weighed"}]}'

echo "Sign it off:"
ask -X POST "$url/v1/recipes/quay-soup/sign-offs" -H "$json" -H "If-Match: $(tag_of)" --data '{
  "verdict": "signed", "name": "Ines Ware, dietitian"}'

echo "What happened:"
ask "$url/v1/events"
