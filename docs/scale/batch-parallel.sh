#!/bin/sh
# A batch on several machines by GNU parallel over ssh:
#   sh batch-parallel.sh MACHINES SHARDS INPUT FOLDER [OPTIONS OF ohmwright batch]
# MACHINES is a file with one machine a line, perhaps with a number of jobs before it: "4/bench-2"; ":" is this machine.
# INPUT and FOLDER lie where every machine sees them. Run again, shards that were interrupted go on, and finished ones stay as they are.
set -eu
machines=$1
shards=$2
input=$3
folder=$4
shift 4
seq 1 "$shards" | parallel --will-cite --retries 3 --sshloginfile "$machines" --workdir "$PWD" --quote \
  ohmwright batch "$input" "$@" --shard "{}/$shards" --resume --out "$folder/shard-{= \$_=sprintf('%06d',\$_) =}.jsonl" \
  --summary "$folder/shard-{= \$_=sprintf('%06d',\$_) =}.summary.json"
sh "$(dirname "$0")/batch-merge.slurm" "$folder" "$shards"
