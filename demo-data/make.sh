#!/bin/sh
# Makes the demo sessions and traces of this folder from the recipes in rigs/, byte for byte the same every time.
# Build first: mvn -DskipTests package
set -eu
here=$(cd "$(dirname "$0")" && pwd)
jar="$here/../analyser/target/analyser.jar"
if [ ! -f "$jar" ]; then
    echo "$jar is not there yet: build it first with mvn -DskipTests package" >&2
    exit 2
fi
for recipe in "$here"/rigs/*.rig.json "$here"/rigs/*/*.rig.json; do
    name=${recipe#"$here"/rigs/}
    name=${name%.rig.json}
    case $name in
        07-* | 08-*) ending=csv ;;
        *) ending=hold ;;
    esac
    java -jar "$jar" simulate "$recipe" --out "$here/$name.$ending" --replace
done
