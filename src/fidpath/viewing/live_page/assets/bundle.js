// Built by page/build.mjs from sources cff9aedf1e8fad2b: change those, and run `make page`.
"use strict";(()=>{function r(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var d=t=>r(t);function s(t,e={},...n){let o=document.createElement(t);for(let[a,i]of Object.entries(e))a==="text"?o.textContent=i:a.startsWith("on")?o.addEventListener(a.slice(
2),i):i===!0?o.setAttribute(a,""):i!==!1&&i!==null&&i!==void 0&&o.setAttribute(a,i);for(let a of n)a!==null&&o.append(a);return o}var w=t=>t instanceof Error?t.
message:String(t);async function f(t,e){let n=e===void 0?{}:{method:"POST",body:JSON.stringify(e)};try{return await v(await fetch(t,n))}catch(o){return{status:0,data:{problem:`fi\
dpath has ended (${w(o)}). Start it again.`}}}}async function v(t){let n=(t.headers.get("Content-Type")||"").startsWith("application/json")?await t.json():{problem:await t.
text()};return{status:t.status,data:n}}function N(t,e){let n=s("a",{href:URL.createObjectURL(e),download:t});n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),
6e4)}var h=t=>`f-${t.replace(/\W/g,"-")}`;function b(t,e){return new Promise(n=>{let o="",a=u=>()=>{o=u,l.close()},i=e.map(u=>s("button",{type:"button",text:u,onclick:a(
u)})),l=s("dialog",{},s("p",{text:t}),s("p",{class:"buttons"},...i));l.addEventListener("close",()=>{l.remove(),n(o)}),document.body.append(l),l.showModal()})}function j({home:t,file:e},n){if(!t)return;let o=r("desk");o.hidden=!1;let a=s("button",{type:"button",text:`Save to ${e}`,onclick:()=>X(e,n)});o.replaceChildren(
s("a",{href:t,text:"All jobs"}),a,s("span",{id:"desk-said",role:"status"}))}async function X(t,e){let n=`Write the figures as they stand into ${t}? What the fil\
e says now is replaced; its notes stay.`;if(await b(n,["Save","Don't save"])!=="Save")return;if(!await e()){r("desk-said").textContent="The figures don't hold: \
nothing was saved.";return}let{data:o}=await f("save",{name:t,replace:!0});r("desk-said").textContent=o.saved?"Saved.":o.problem||$,o.follows&&r("follows").scrollIntoView(
{block:"nearest"})}var $="Not saved yet: a name still says what the rope was. Choose above whether it follows.";function I(t,e){let n=r("follows");if(n.hidden=t.length===0,t.length===0){n.replaceChildren();return}let o=new Set([...n.querySelectorAll("input:not(:checked)")].
map(p=>p.getAttribute("data-key"))),a=t.map(p=>Y(p,!o.has(p.key))),i=s("button",{type:"button",class:"main",text:"Make these follow",onclick:()=>Z(t,e)}),l=s("b\
utton",{type:"button",text:"Leave them as they are",onclick:()=>e.put({},!0)});n.replaceChildren(s("p",{text:"The rope has changed. These were for the rope befo\
re:"}),s("ul",{},...a),s("p",{class:"buttons"},i,l))}function Y({key:t,label:e,old:n,new:o,why:a},i){let l=s("input",{type:"checkbox",id:`follow-${t}`,"data-key":t});
l.checked=i;let u=s("span",{class:"change"},s("s",{text:n})," to ",s("b",{text:o||"left out"}));return s("li",{},l,s("label",{for:`follow-${t}`},`${e}: `,u,s("s\
mall",{text:a})))}function Z(t,e){let n=t.filter(({key:o})=>d(`follow-${o}`).checked);e.put(Object.fromEntries(n.map(({key:o,new:a})=>[o,a])),!0)}function M(t){
for(let e of["mm","in"])r(`units-${e}`).addEventListener("click",async()=>{let{status:n,data:o}=await f("units",{texts:t.texts(),to:e});n===200&&t.put(o.texts,!1)})}
function g(t){let e=/in$|ft$|["']$/.test((t["tools.tape_division"]||t["rope.diameter"]||"").trim());r("units-in").setAttribute("aria-pressed",String(e)),r("unit\
s-mm").setAttribute("aria-pressed",String(!e))}function P(t){for(let[e,n]of Object.entries(t))d(h(e)).value=n}var tt=700,x=6,S=!1;async function U(){r("build").addEventListener("click",et),r("build-stop").addEventListener("click",()=>C("build/stop",{})),r("phone").addEventListener(
"click",at),await F(),_()}function et(){C("build",{motion:d("build-motion").checked})}async function C(t,e){let{status:n,data:o}=await f(t,e);n===200?R(o):D(o.problem,
!0),_()}async function _(){if(!S){for(S=!0;;){let{status:t,data:e}=await f("build");if(t!==200||(R(e),e.phase!=="building"))break;await new Promise(n=>setTimeout(
n,tt))}S=!1,await F()}}function R(t){let e=t.phase==="building",n=r("build-bar");n.hidden=!e,n.value=t.share,r("build-stop").hidden=!e,d("build").disabled=e;let o=e?
`${t.name}: ${t.words} (${Math.round(100*t.share)} %)`:t.words;D(o,t.phase==="failed"),rt(t.phone)}function D(t,e){let n=r("build-said");n.textContent!==t&&(n.textContent=
t),n.classList.toggle("error",e)}async function F(){let{status:t,data:e}=await f("results");if(t!==200)return;let n=e.groups;r("results").replaceChildren(...n.map(
nt)),r("results-note").textContent=n.length>0?`They are in ${e.folder}.`:"Nothing has been built yet. It takes a minute or two.",r("phone").hidden=!n.some(({files:o})=>o.
some(({path:a})=>a==="splice.html"))}function nt({title:t,files:e}){let n=e.map(({path:i,size:l})=>{let u=s("a",{href:`results/${i.split("/").map(encodeURIComponent).
join("/")}`,target:"_blank",text:i});return s("li",{},u,` ${ot(l)}`)}),o=s("ul",{},...n.slice(0,x)),a=n.length>x?s("details",{},s("summary",{text:`${n.length-x}\
 more`}),s("ul",{},...n.slice(x))):null;return s("div",{class:"result"},s("h3",{text:t}),o,a)}var ot=t=>t<1e6?`${Math.max(1,Math.round(t/1e3))} kB`:`${(t/1e6).toFixed(
1)} MB`,st="Show the built page to a phone in this network? Until you stop it, for two hours at most, everybody in the same network who has the address can read\
 the page and nothing else. The way there isn't encrypted.";async function at(){let t=r("phone").dataset.on==="yes";!t&&await b(st,["Show it","Not now"])!=="Sho\
w it"||await C("phone",{on:!t})}function rt(t){r("phone").dataset.on=t?"yes":"no",r("phone").textContent=t?"Stop showing it to a phone":"Show the page on a phon\
e in this network";let e=t&&s("img",{src:`phone.svg?${t.url.length}${t.url.slice(-6)}`,alt:"Code for the phone's camera",width:240,height:240}),n=t&&s("p",{},`${t.
name} is shown to phones in this network, to be read only. Point the phone's camera at the code, or type `,s("b",{text:t.url}));r("phone-shown").replaceChildren(
...t?[n,e]:[])}var K=20,it=450,c={fields:[],texts:{},number:0,sent:0,mine:0,heard:0,shown:0,timer:void 0,patience:void 0,frame:null,wrong:!1,busy:!1,agreed:!1};async function ct(){
let{data:t}=await f("state");T(t.name),c.texts=t.texts,lt(t.fields,t.texts),A(t.plan),z(t.pictures),d("save-name").value=t.suggested,r("save-note").textContent=
`Goes into ${t.folder}. Comments of the file this job came from are not kept.`,Et(),M(G),g(t.texts),j(t,J),U(),q(t.news),xt()}function T(t){r("name").textContent=
t,document.title=`${t}, live`}var G={texts:()=>H(),put:(t,e)=>{P(t),c.agreed||=e,y()}};async function J(){for(let t=0;t<50&&!c.wrong&&c.number!==c.sent;t++)await new Promise(
e=>setTimeout(e,100));return!c.wrong&&c.number===c.sent}function lt(t,e){c.fields=t;let n=r("form");for(let o of new Set(t.map(a=>a.group))){let a=t.filter(u=>u.
group===o),i=a.map(u=>ut(u,e)),l=a.some(({key:u})=>e[u]);n.append(a[0].more?dt(o,i,l):s("fieldset",{},s("legend",{text:o}),...i))}n.addEventListener("input",y),
n.addEventListener("change",y),n.addEventListener("keydown",pt),n.addEventListener("submit",o=>o.preventDefault()),O()}var dt=(t,e,n)=>s("details",{open:n},s("s\
ummary",{text:t}),...e);function ut(t,e){let n=h(t.key),o=ft(t,n);o.value=e[t.key]||(t.kind==="switch"?t.default:"");let a=s("small",{text:t.units});return s("d\
iv",{class:"field","data-key":t.key},s("label",{for:n,text:t.label},a),o,s("p",{class:"hint",id:`${n}-hint`,text:t.bounds,hidden:!t.bounds}),s("p",{class:"error",
id:`${n}-error`,role:"status",hidden:!0}))}function ft(t,e){let n={id:e,name:t.key,"aria-describedby":`${e}-hint ${e}-error`};if(t.kind==="choice"||t.kind==="sw\
itch"){let o=t.kind==="choice"?t.choices:[["yes","yes"],["no","no"]];return s("select",n,...o.map(([a,i])=>s("option",{value:a,text:i})))}return s("input",{...n,
placeholder:t.default,maxlength:"200",spellcheck:"false"})}var ht=t=>r(h(t)).closest(".field");function O(){for(let{key:t,of:e,kindKey:n}of c.fields)ht(t).hidden=
e.length>0&&!e.includes(d(h(n)).value)}function pt(t){let e=t.target,n={ArrowUp:1,ArrowDown:-1}[t.key],o=e.tagName==="INPUT"&&/\d+(?:\.(\d+))?(?![\d/])/.exec(e.
value);if(!n||!o||e.value[o.index-1]==="/")return;t.preventDefault();let a=(o[1]||"").length,i=Math.max(0,Number(o[0])+n*10**-a).toFixed(a);e.value=e.value.slice(
0,o.index)+i+e.value.slice(o.index+o[0].length),y()}function y(){O(),clearTimeout(c.timer),c.number+=1,c.timer=setTimeout(V,K)}var H=()=>Object.fromEntries(c.fields.
map(({key:t})=>[t,d(h(t)).value]));async function V(){if(c.busy){c.timer=setTimeout(V,K);return}let t=c.number;c.busy=!0;let{status:e,data:n}=await m(()=>f("job",
{texts:H(),agreed:c.agreed}));if(c.busy=!1,!(t!==c.number||e===0)){if(c.sent=t,c.agreed=!1,I(n.follows||[],G),c.wrong=e!==200||!n.plan,clearTimeout(c.patience),
c.wrong){c.patience=setTimeout(()=>E(n.errors||{},n.general||n.problem||""),it);return}E({},""),A(n.plan),mt(n.fields),T(n.name),g(n.texts),c.texts=n.texts,c.mine=
n.change}}async function m(t){try{let e=await t();return e.status===0&&L(),e}catch{return L(),{status:0,data:{}}}}function E(t,e){for(let{key:n}of c.fields){let[
o,a]=[d(h(n)),r(`${h(n)}-error`)],i=t[n]||"";o.setAttribute("aria-invalid",i?"true":"false"),a.textContent!==i&&(a.textContent=i),a.hidden=!i}r("general").textContent=
e,r("general").hidden=!e,r("stale").hidden=Object.keys(t).length===0&&!e}function mt(t){for(let e of t){let n=d(h(e.key));n.tagName==="INPUT"&&(n.placeholder=e.
default),r(`${h(e.key)}-hint`).textContent=e.bounds}}async function wt(){let{status:t,data:e}=await m(()=>f("state"));if(t===200&&(z(e.pictures),!(JSON.stringify(
e.texts)===JSON.stringify(c.texts)||c.number!==c.sent))){c.texts=e.texts;for(let{key:n,kind:o,default:a}of c.fields){let i=d(h(n));i!==document.activeElement&&(i.
value=e.texts[n]||(o==="switch"?a:""))}O(),T(e.name),g(e.texts),E({},""),A(e.plan)}}var bt=["eye_length_to_crown","eye_slack","throat_angle","tail_to_lay_out","\
bury_length","take_up"],B=[["marks","Marks"],["lengths","Lengths"],["figures","Angles, shares and tensions"]];function A(t){let e=new Map([...r("plan").querySelectorAll(
"td")].map(i=>[i.dataset.name,i.textContent])),n=B.map(([i,l])=>gt(l,t[i],e));r("plan").replaceChildren(...n);let o=B.flatMap(([i])=>t[i]),a=bt.flatMap(i=>o.filter(
l=>l.name===i));r("first").replaceChildren(...a.flatMap(({label:i,shown:l})=>[s("dt",{text:i}),s("dd",{text:l})])),r("warnings").replaceChildren(...t.warnings.map(
i=>s("li",{text:i}))),r("cautions").replaceChildren(...t.cautions.map(i=>s("li",{text:i})))}function gt(t,e,n){let o=e.map(({name:a,label:i,shown:l,measured_from:u})=>{
let p=n.size>0&&n.get(a)!==l,Q=s("td",{"data-name":a,text:l,class:p?"new":null});return s("tr",{},s("th",{scope:"row",text:i},s("small",{text:u})),Q)});return s(
"table",{},s("caption",{text:t}),s("tbody",{},...o))}function xt(){let t=new EventSource("news");t.onmessage=e=>q(JSON.parse(e.data)),t.onerror=()=>{t.readyState===
EventSource.CLOSED?yt():L()}}function k(t,e){let n=r("words");n.textContent!==t&&(n.textContent=t),r("status").classList.toggle("wrong",e)}function L(){k("fidpa\
th has ended. The picture stays; start it again for the fields to answer.",!0),r("progress").hidden=!0}function yt(){k("No more news here: too many windows show\
 this job. Close one and load this page again.",!0)}var kt=t=>`${t.slice(0,1).toUpperCase()}${t.slice(1)}.`;function q(t){r("progress").value=t.share,r("progres\
s").hidden=t.phase==="done"||t.phase==="refused";let e=t.shown>0&&t.shown_change!==t.change,n=e?" The picture is still that of the figures before.":"";e&&c.frame&&
c.frame.then(i=>i.document.body.classList.add("old"));let o=t.phase==="refused";k(`${o?"This can't be settled: ":""}${kt(t.words)}${n}`,o);let a=t.shown>c.shown;
a&&vt(t.shown),(a||t.change!==c.heard&&t.change!==c.mine)&&wt(),c.heard=t.change}async function vt(t){if(c.shown=t,!c.frame){c.frame=$t();return}let e=await c.frame,
{status:n,text:o}=await m(async()=>{let a=await fetch("data");return{status:a.status,data:{},text:await a.text()}});if(n===200)try{e.fidpathLoad(o||"")}catch(a){
k(`The new picture can't be shown: ${w(a)}`,!0)}}function $t(){let t=s("iframe",{src:"splice.html",title:"The splice, step by step"});return new Promise(e=>{t.addEventListener(
"load",()=>{r("waiting").hidden=!0;let n=t.contentWindow;n&&(n.addEventListener("fidpath-shown",o=>f("look",{key:o.detail})),e(n))}),r("frames").append(t)})}async function St(t){
t.preventDefault();let e={name:d("save-name").value,replace:d("save-replace").checked};if(!await J()){r("save-said").textContent="The figures above don't hold: \
nothing was saved.";return}let{data:n}=await m(()=>f("save",e));r("save-said").textContent=n.saved?`Saved as ${n.saved}.`:n.problem||$,r("save-said").classList.
toggle("error",!n.saved),n.follows&&r("follows").scrollIntoView({block:"nearest"}),d("save-replace").checked=!1}var Ct=[["splice.html","the page: one file that \
opens anywhere"],["job.toml","the job file"],["plan.json","the plan, for other programs"],["splice.stl","the finished splice as a solid, STL in millimetres"],["\
splice.glb","the finished splice as a solid, GLB in metres"]];function Et(){let t=Ct.map(([e,n])=>{let o=s("button",{type:"button",text:`Download ${n}`});return o.
addEventListener("click",()=>W(e)),s("li",{},o)});r("take").append(...t),r("take-button").addEventListener("click",()=>W(`${d("take-picture").value}.png`)),r("s\
ave").addEventListener("submit",St)}function z(t){let e=d("take-picture"),n=e.value;e.replaceChildren(...t.map(([o,a])=>s("option",{value:o,text:a}))),t.some(([
o])=>o===n)&&(e.value=n),d("take-button").disabled=t.length===0}async function W(t){let e=r("take-said");e.textContent="It is being made.";let{status:n,data:o}=await m(
()=>Lt(t));e.textContent=n===200?`${o.name} is there.`:o.problem||"It could not be made.",e.classList.toggle("error",n!==200),n===200&&N(o.name,o.blob)}async function Lt(t){
let e=await fetch(`take/${t}`);if(e.status===200){let n=/filename="([^"]+)"/.exec(e.headers.get("Content-Disposition")||"");return{status:200,data:{blob:await e.
blob(),name:n?n[1]:t}}}return v(e)}ct();})();
